using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Judging;

/// <summary>A judging in words.</summary>
internal static class JudgingSentences
{
    public static ImmutableArray<string> Of(JudgingResult result)
    {
        List<string> told = [];
        QuestionReading[] both = [result.Clean, result.Stretch];
        string[] limits = [.. both.Where(r => r.HasLimit).Select(r => $"{r.Question.Limit()} {Limit(r)}")];
        if (limits.Length > 0)
            told.Add($"{string.Join(", ", limits)}, for {Centimetres(result.Tags.Print.WidthMm)} at {Centimetres(result.Tags.Print.ViewingDistanceMm)}{(result.Tags.Lift is { Value: > 0 } lift ? $", the dark lifted by {lift.ToDisplay()} {(lift.Value > 1 + Stops.Hair ? "stops" : "stop")}" : "")}.");
        told.AddRange(both.Select(WhyNot).OfType<string>());
        if (result.IsContradictory)
            told.Add("These two do not go together: you put your name to less noise than disturbs you. Neither limit is kept; judge again, one question at a time.");
        else if (result.Clean.HasLimit && result.Stretch.HasLimit && result.Stretch.LimitStops!.Value.Value < result.Clean.LimitStops!.Value.Value)
            told.Add("You sign as long as nothing disturbs you: both limits are taken as one.");
        told.AddRange(both.SelectMany(HowSure));
        return [.. told];
    }

    private static string Limit(QuestionReading r) => $"{Dial(r.Limit!)} ({Dial(r.Low!)} to {Dial(r.High!)})";

    // Thousands are parted as in every other sentence.
    private static string Dial(Iso iso) => iso.ToDisplay() is var mark && mark.All(char.IsAsciiDigit) ? Say.Number(double.Parse(mark, CultureInfo.InvariantCulture), 0) : mark;

    private static string? WhyNot(QuestionReading r) => r.Outcome switch
    {
        LimitOutcome.Unfinished when r.Answers == 0 => $"{Name(r)}: not asked yet.",
        LimitOutcome.Unfinished => $"{Name(r)}: {r.Answers} answers so far, {JudgingRules.FewestAnswers} to {JudgingRules.MostAnswers} are needed.",
        LimitOutcome.AboveLadder => $"{Name(r)}: above the noisiest shown{(r.Objections == 0 ? $", because you never {Objected(r)}" : "")}. Shoot a higher ISO into the ladder to find it.",
        LimitOutcome.BelowLadder => $"{Name(r)}: below the cleanest shown{(r.Objections == r.Answers ? $", because you {Objected(r)} every time" : "")}. Judge a smaller print, or from farther away; if the cleanest disturbs there too, it is not the noise.",
        LimitOutcome.NotByNoise => $"{Name(r)}: no limit, because these answers do not depend on the noise, or too little to tell. If you did look: the limit may lie outside what was shown.",
        LimitOutcome.BlanksRefused => $"{Name(r)}: no limit, because you refused the cleanest picture {r.BlanksRefused} of {r.Blanks} times. What disturbs there is not the noise.",
        LimitOutcome.CannotSay => $"{Name(r)}: cannot say; the answers leave it open by more than 1 1/4 stops either way.",
        _ => null,
    };

    private static IEnumerable<string> HowSure(QuestionReading r)
    {
        if (!r.HasLimit)
            yield break;
        double half = (r.LimitStops!.Value.High - r.LimitStops!.Value.Low) / 2;
        yield return $"{Name(r)}: sure to {Say.Stops(half)} either way after {r.Answers} answers{(r.Outcome == LimitOutcome.Wide ? ", which is less sure than a third of a stop: unsure" : "")}; "
            + $"your answers turn within {Say.Stops(r.SpreadStops!.Value)}, {Steadiness(r.SpreadStops!.Value)}.";
        if (r.BlanksRefused > 0)
            yield return $"{Name(r)}: you refused the cleanest picture {r.BlanksRefused} of {r.Blanks} times; this is allowed for.";
        if (r.Drift is { } drift && Math.Abs(drift.StandardErrors) >= JudgingRules.DriftSeen)
            yield return $"{Name(r)}: your limit seems to have {(drift.Stops > 0 ? "risen" : "fallen")} while you judged, by about {Say.Stops(drift.Stops)}. Judge again another day.";
        if (r.Repeats is { Pairs: >= 10 } repeats)
            yield return $"{Name(r)}: on repeats you agreed with yourself in {Say.Percent((double)repeats.Agreeing / repeats.Pairs)}; {Say.Percent(repeats.Expected)} is usual for levels so near the limit.";
    }

    private static string Objected(QuestionReading r) => r.Question == JudgingQuestion.Disturbs ? "called the noise disturbing" : "said no";

    private static string Name(QuestionReading r) => r.Question == JudgingQuestion.Disturbs ? "Clean" : "Stretch";

    // 0.3 and 0.8 stop are the ends of what simulated observers were tried at; where people lie is not known here.
    private static string Steadiness(double spread) => spread < 0.4 ? "a sharp edge" : spread < 0.7 ? "a fairly sharp edge" : "a soft edge";

    private static string Centimetres(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm / 10:0.#} cm");
}
