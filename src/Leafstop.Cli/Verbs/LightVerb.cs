using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop light: the sun's day at a place, how much light there is, how fast it changes and when it is enough.</summary>
internal static class LightVerb
{
    private const int MostSamples = 20_000;
    private static readonly Duration UsualStep = Duration.FromMinutes(15);

    public static Command Build(Surroundings say)
    {
        Verb verb = new("light", "Tells the light of a day at a place: sun, twilight, EV, how fast it changes and when it is enough.",
            "leafstop light --lat 50.1 --lon -3.2 --date 2026-10-17 --zone Europe/London",
            "leafstop light --lat 50.1 --lon -3.2 --date 2026-10-17 --zone Europe/London --ridge 10 --okta 8 --canopy aspen-summer --at 08:40 --why",
            "leafstop light --lat 50.1 --lon -3.2 --date 2026-10-17 --zone Europe/London --aperture 11 --shutter 1/4 --iso 800 --filter \"polariser 1.5\"",
            "leafstop light --place \"Dimble Spout\" --date 2026-10-17 --okta 8 --from 06:30 --to 09:00 --step 5min --json");
        foreach (Option option in LightOptions.All)
            verb.Options.Add(option);
        verb.Options.Add(say.JsonOption);
        verb.Options.Add(say.QuietOption);
        verb.SetAction(call => Tell(call, say));
        return verb;
    }

    private static int Tell(ParseResult call, Surroundings say)
    {
        LightAnswer answer = Answer(call, LightCall.Read(call, say));
        say.Out.Write(call.GetValue(say.JsonOption)
            ? LightJson.Of(answer)
            : LightText.Of(answer, call.GetValue(LightOptions.Why), Math.Min(100, say.OutWidth ?? 100)));
        return ExitCode.Done;
    }

    private static LightAnswer Answer(ParseResult call, LightCall asked)
    {
        SunDay day = Day(asked);
        ExposureValue? wanted = LightCall.ReadWanted(call);
        (string? at, string? from, string? to) = (call.GetValue(LightOptions.At), call.GetValue(LightOptions.From), call.GetValue(LightOptions.To));
        string? written = call.GetValue(LightOptions.Step);
        if (at is not null && (from ?? to ?? written) is not null)
            throw Refusal.WrongCall("--at asks for one time, so leave out --from, --to and --step.");
        Instant start = from is null ? day.Start : asked.Moment("--from", from), end = to is null ? day.End : asked.Moment("--to", to);
        if (end <= start)
            throw Refusal.WrongCall("--to is not after --from.");
        Duration step = written is null ? UsualStep : LightCall.ReadStep(written);
        if ((end - start) / step > MostSamples)
            throw Refusal.WrongCall($"That is more than {MostSamples} rows: choose a longer --step or a shorter span.");
        LightCurve curve = new(start, end, asked.Place, asked.Conditions, asked.Notes);
        Instant? single = at is null ? null : asked.Moment("--at", at);
        LightEstimate[] rows = single is { } when
            ? [curve.At(when)]
            // Midnight belongs to the next day, a last time that was asked for to the table.
            : [.. curve.Table(step).Where(r => to is not null || r.When < end)];
        return new LightAnswer
        {
            Day = day,
            Kept = asked.Kept?.Name,
            Conditions = asked.Conditions,
            Curve = curve,
            Moment = single is null ? null : rows[0],
            Rows = rows,
            Wanted = wanted,
            Passes = wanted is { } ev ? curve.Passes(ev) : [],
        };
    }

    private static SunDay Day(LightCall asked)
    {
        try
        {
            return SunDay.Of(asked.Date, asked.Zone, asked.Place);
        }
        catch (ArgumentException never)
        {
            // A date that a clock went over is well written, but no sun rose on it.
            throw Refusal.NoAnswer(Refusal.Sentence(never));
        }
    }
}
