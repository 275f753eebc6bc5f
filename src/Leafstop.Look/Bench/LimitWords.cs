using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The worked-out limits at one tone, in words. They are the criterion's, never called the person's own.</summary>
/// <param name="Limit">The limit itself.</param>
/// <param name="Heading">"At mid-grey".</param>
/// <param name="Lines">Clean, stretch, published acceptable.</param>
/// <param name="Tags">The five tags without which a limit means nothing.</param>
public sealed record LimitWords(PredictedLimit Limit, string Heading, IReadOnlyList<Statement> Lines, string Tags)
{
    /// <summary>Puts a limit into words.</summary>
    public static LimitWords Of(PredictedLimit limit) => new(
        limit,
        limit.Tone == LimitTone.MidGrey ? "At mid-grey" : $"At −3{Figures.NoBreak}EV, in the shadows",
        [
            Line("Clean", 40, limit.CleanExact, HowKnown.WorkedOut, "where the criterion says first excellent"),
            Line("Stretch", 20, limit.StretchExact, HowKnown.RuleOfThumb, "between the two published levels"),
            Line("Published acceptable", 10, limit.AcceptableExact, HowKnown.WorkedOut, "where the criterion says first acceptable"),
        ],
        TagsOf(limit));

    /// <summary>"1/3 stop" wording is not needed here: the exact ISO first, then the mark that the camera can be set to.</summary>
    private static Statement Line(string name, int signalToNoise, Iso? exact, HowKnown known, string meaning) => exact is null
        ? new Statement($"{name}: I cannot say, this ladder does not reach it (signal-to-noise {signalToNoise}).")
        : new Statement($"{name}: {Figures.Names([Iso.FromSpeed(Math.Round(exact.Speed))])}, dial {Figures.Speed(exact.DialAtOrBelow())} (signal-to-noise {signalToNoise}, {meaning}).", known);

    private static string TagsOf(PredictedLimit limit)
    {
        string treatment = limit.Treatment == "none" ? "no noise reduction, no sharpening" : limit.Treatment;
        return $"For {limit.Body}; a print {Figures.Length(limit.Print.WidthMm)} wide seen from {Figures.Length(limit.Print.ViewingDistanceMm)}; {(limit.Tone == LimitTone.MidGrey ? "tone at mid-grey" : $"tone at −3{Figures.NoBreak}EV")}; treatment: {treatment}.";
    }
}
