using Leafstop.Core.Judging;

namespace Leafstop.Testing.Judging;

/// <summary>A seeded eye whose limits are known, which answers as people do: by a noisy impression set against a limit, with slips.</summary>
public sealed class SimulatedObserver(int seed)
{
    private readonly Random _random = new(seed);
    private int _asked;

    /// <summary>True limits, stops above ISO 100.</summary>
    public double CleanStops { get; init; } = 3;

    /// <summary>True limits, stops above ISO 100.</summary>
    public double StretchStops { get; init; } = 5;

    /// <summary>Spread of the impression, stops: one standard deviation.</summary>
    public double SpreadStops { get; init; } = 0.5;

    /// <summary>Slope of a Weibull eye over the standard deviation of noise instead of a normal one over stops; its limit is the half-way point.</summary>
    public double? WeibullSlope { get; init; }

    /// <summary>Share of answers that come from a coin.</summary>
    public double Lapse { get; init; } = 0.02;

    /// <summary>Share of answers that object without looking.</summary>
    public double Objecting { get; init; }

    /// <summary>"Unsure" when the impression lies this near to the limit, stops.</summary>
    public double UnsureWithin { get; init; }

    /// <summary>Both limits move by this over sixty answers of each question, stops.</summary>
    public double Learning { get; init; }

    /// <summary>Share of objections of an eye that does not look at all; null for one that looks.</summary>
    public double? Guessing { get; init; }

    /// <summary>The limit in force now.</summary>
    public double Limit(JudgingQuestion question) => (question == JudgingQuestion.Disturbs ? CleanStops : StretchStops) + Learning * _asked / (2.0 * JudgingRules.MostAnswers);

    /// <summary>Looks and answers.</summary>
    public JudgingReply Reply(JudgingQuestion question, double stops)
    {
        double limit = Limit(question);
        _asked++;
        if (Guessing is { } share)
            return Said(question, _random.NextDouble() < share);
        if (_random.NextDouble() < Objecting)
            return Said(question, true);
        if (_random.NextDouble() < Lapse)
            return Said(question, _random.NextDouble() < 0.5);
        double above = stops - limit + (WeibullSlope is { } slope ? Weibull(slope) : SpreadStops * Normal());
        return Math.Abs(above) < UnsureWithin ? JudgingReply.Unsure : Said(question, above > 0);
    }

    /// <summary>Looks at a crop on paper once and writes one word.</summary>
    public PaperWord Word(double stops)
    {
        if (Guessing is { } share)
            return _random.NextDouble() >= share ? PaperWord.Clean : _random.NextDouble() < 0.5 ? PaperWord.Bearable : PaperWord.No;
        if (_random.NextDouble() < Lapse)
            return (PaperWord)_random.Next(3);
        double seen = stops + SpreadStops * Normal();
        return Math.Min(Math.Abs(seen - CleanStops), Math.Abs(seen - StretchStops)) < UnsureWithin ? PaperWord.Unsure
            : seen <= CleanStops ? PaperWord.Clean : seen <= StretchStops ? PaperWord.Bearable : PaperWord.No;
    }

    /// <summary>Writes a word to every letter of a strip.</summary>
    public PaperAnswers Judge(BlindCodes key) =>
        PaperAnswers.Read(string.Join(", ", key.Codes.Select(c => $"{c.Letter} {Word(c.Shown.EquivalentStops).ToString().ToLowerInvariant()}")), key);

    /// <summary>Answers until the session has heard enough.</summary>
    public JudgingResult Judge(JudgingSession session)
    {
        while (session.Next() is { } trial)
            session.Answer(trial.Token, Reply(trial.Question, session.Picture(trial.Token).Level.EquivalentStops));
        return session.Result();
    }

    private static JudgingReply Said(JudgingQuestion question, bool objects) =>
        objects == (question == JudgingQuestion.Disturbs) ? JudgingReply.Yes : JudgingReply.No;

    // Objects with 1 − 2^−(c^slope), c the noise against that of the limit: c = 2^(stops / 2). Inverted: the impression in stops of one draw.
    private double Weibull(double slope) => -2 * Math.Log2(-Math.Log2(1 - _random.NextDouble())) / slope;

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
