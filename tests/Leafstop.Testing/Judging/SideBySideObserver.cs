using Leafstop.Core.Judging;
using Leafstop.Core.Judging.Curves;

namespace Leafstop.Testing.Judging;

/// <summary>A seeded eye that compares two pictures: right with 0.5 + (0.5 − lapse) · (1 − exp(−(difference / threshold)^slope)), PSY-09.</summary>
public sealed class SideBySideObserver(int seed)
{
    private readonly Random _random = new(seed);

    /// <summary>Slope of the Weibull curve.</summary>
    public double Slope { get; init; } = 3.5;

    /// <summary>The difference that is seen in 63 % of looks, in the unit of the difference.</summary>
    public double Threshold { get; init; } = 1;

    /// <summary>Share of answers that come wrong where all is seen, as PSY-09 counts it.</summary>
    public double Lapse { get; init; } = 0.02;

    /// <summary>True to say "the same" instead of guessing when nothing was seen.</summary>
    public bool SaysSame { get; init; }

    /// <summary>True to name the left one always.</summary>
    public bool AlwaysLeft { get; init; }

    /// <summary>The chance of a right answer when guesses are guessed.</summary>
    public double Right(double difference) => new AnswerCurve(SigmoidShape.Weibull, Threshold, Slope, 0.5, Lapse).At(difference);

    /// <summary>Looks and answers.</summary>
    /// <param name="difference">How far the two lie apart.</param>
    /// <param name="noisierIsLeft">Where the noisier one is.</param>
    public SideReply Reply(double difference, bool noisierIsLeft)
    {
        if (AlwaysLeft)
            return SideReply.Left;
        bool sees = _random.NextDouble() < AnswerCurve.Rise(SigmoidShape.Weibull, difference, Threshold, Slope);
        if (!sees && SaysSame)
            return SideReply.Same;
        // Seen: right but for the lapses; unseen: a coin.
        bool right = _random.NextDouble() < (sees ? 1 - Lapse : 0.5);
        return right == noisierIsLeft ? SideReply.Left : SideReply.Right;
    }

    /// <summary>Answers every trial of a check.</summary>
    public SideBySideResult Judge(SideBySideCheck check, double difference)
    {
        while (check.Next() is { } trial)
            check.Answer(trial.Token, Reply(difference, check.Pictures(trial.Token).Left > check.Pictures(trial.Token).Right));
        return check.Result()!;
    }
}
