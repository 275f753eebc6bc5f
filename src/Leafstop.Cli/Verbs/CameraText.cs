using System.Globalization;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Card;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>Kept cameras in words and as JSON.</summary>
internal static class CameraText
{
    public static string List(IReadOnlyList<KeptCamera> cameras)
    {
        if (cameras.Count == 0)
            return "No camera is kept yet. Measure one: leafstop measure DIR --save NAME\n";
        int width = cameras.Max(c => c.Name.Length) + 2;
        StringBuilder text = new();
        foreach (KeptCamera camera in cameras)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{camera.Name.PadRight(width)}{Summary(camera)}");
        }
        return BenchText.Plain(text.ToString());
    }

    private static string Summary(KeptCamera camera)
    {
        if (camera.Newest is not { } newest)
        {
            CardText card = camera.NewestCard!.Card;
            string carried = card.Levels.IsEmpty ? "no level" : Range(card.Levels[0].Iso, card.Levels[^1].Iso);
            return $"{carried}, from a card of {Day(card.MadeOn)}";
        }
        KeptLevel[] usable = [.. newest.Levels.Where(l => l.Usable)];
        string isos = usable.Length > 0 ? Range(usable.Min(l => l.Iso)!, usable.Max(l => l.Iso)!) : "no usable level";
        return $"{isos}, {How(newest)} {Day(newest)}{Times(camera)}";
    }

    private static string Range(Iso low, Iso high) => low == high ? Figures.Name(low) : $"{Figures.Name(low)} to {Figures.Speed(high)}";

    /// <summary>A camera in the words of a bench test; lines keep to the width, at most 100.</summary>
    /// <param name="camera">The camera.</param>
    /// <param name="own">The person's own limits that count, newest first.</param>
    /// <param name="width">Columns of the terminal.</param>
    public static string Show(KeptCamera camera, IReadOnlyList<OwnLimits> own, int width)
    {
        int room = Math.Clamp(width - 1, 40, 100);
        List<string> page = [camera.Name];
        if (camera.Newest is not { } newest)
        {
            Paragraph(BenchAccount.Described(camera.Body));
            foreach (KeptCard kept in camera.Cards)
                Card(kept);
            return string.Concat(page.Select(l => BenchText.Plain(l) + "\n"));
        }
        Paragraph(BenchAccount.Described(newest.Camera));
        Paragraph($"{BenchVerdict.Capital(How(newest))} {Day(newest)}, {Ladder(newest.Ladder)}.");
        foreach (IGrouping<LadderKind, KeptLevel> group in newest.Levels.GroupBy(l => l.Ladder))
            Levels(group, newest.Levels.Any(l => l.Ladder != group.Key) ? LevelWords.Ladder(group.Key) : "Level by level");
        Heading("Gain step");
        if (newest.GainSteps.IsEmpty)
            Paragraph("No gain step is kept.");
        foreach (KeptGainStep step in newest.GainSteps)
            Item(Told(BenchAccount.Step(new GainStep(step.Below, step.Above, step.ReadNoiseRatio, 0))));
        if (own.Count > 0)
            Heading("Limits by your own judging");
        foreach (OwnLimits limits in own)
            Item($"{PlanSentences.LimitWords(limits.Limits)}{(limits.JudgedOn is { } on ? $" Judged on {Day(on)}." : "")}");
        if (camera.Measurements.Length > 1)
        {
            Heading("History, oldest first");
            foreach (KeptMeasurement m in camera.Measurements)
                Item($"{(camera.Measurements.Count(o => Day(o) == Day(m)) > 1 ? Time(m) : Day(m))}{(m.IsImported ? ", imported" : "")}: {Count(m.Levels.Count(l => l.Usable), "usable level", "usable levels")}, {Base(m)}");
        }
        foreach (KeptCard kept in camera.Cards)
            Card(kept);
        return string.Concat(page.Select(l => BenchText.Plain(l) + "\n"));

        void Paragraph(string text) => page.AddRange(TextColumns.Wrap(text, room));

        void Item(string text) => page.AddRange(TextColumns.Wrap("- " + text, room, 2));

        void Heading(string text) => page.AddRange(["", text]);

        void Card(KeptCard kept)
        {
            CardText card = kept.Card;
            Heading($"From a card of {Day(card.MadeOn)}");
            if (card.Limits is { } limits)
                Paragraph($"{PlanSentences.LimitWords(limits)}{(card.JudgedOn is { } judged ? $" Judged on {Day(judged)}." : "")}");
            Paragraph($"Base ISO{Figures.NoBreak}{card.BaseIso.ToDisplay()}. {(card.Levels.IsEmpty ? "The card carries no noise." : $"Noise at {Figures.Names(card.Levels.Select(l => l.Iso))}{(card.MeasuredOn is { } on ? $", measured on {Day(on)}" : "")}.")} A card carries no intervals and no single answers.");
        }

        void Levels(IEnumerable<KeptLevel> levels, string heading)
        {
            LevelRow[] rows = [.. levels.Select(l => LevelRow.Of(Whole(l), newest.GainSteps.Any(s => s.Above == l.Iso)))];
            Heading(heading);
            page.AddRange(TextColumns.Set(
            [
                ["ISO", "gain", "read noise", "clips at", "range", "remark"],
                ["", Figures.ElectronsPerDn, Figures.Electrons, Figures.Electrons, "stops", ""],
                .. rows.Select(r => new[] { r.Iso, BenchText.Struck(r, r.Gain), r.Usable ? $"{r.ReadNoise} {r.PlusMinus}" : BenchText.Struck(r, r.ReadNoise), BenchText.Struck(r, r.ClipsAt), r.Range, r.Remark }),
            ], room).SelectMany(l => l));
            foreach (LevelRow row in rows.Where(r => r.Level.Reason is not null))
                Item($"{Figures.Name(row.Level.Iso)} is left off: {row.Level.Reason}");
            if (rows.Any(r => r.Gain.Length > 0))
            {
                string known = string.Join(' ', LevelRow.Known(rows, withSignalToNoise: false).Select(k => $"{k.Text}: {Statement.Word(k.Known!.Value)}."));
                Paragraph($"{known} Read noise with its 95{Figures.NoBreak}% interval.{(rows.Any(r => !r.Usable && (r.Gain + r.ReadNoise + r.ClipsAt).Length > 0) ? " A figure in brackets does not count." : "")}");
            }
        }
    }

    /// <summary>How much is kept: "2 measurings, 2026-03-01 to 2026-04-02".</summary>
    public static string Extent(KeptCamera camera)
    {
        if (camera.Newest is not { } newest)
            return Count(camera.Cards.Length, "card", "cards");
        string first = Day(camera.Measurements[0]), last = Day(newest);
        return $"{Count(camera.Measurements.Length, "measuring", "measurings")}, {(first == last ? first : $"{first} to {last}")}";
    }

    /// <summary>What became of a card that was read back.</summary>
    public static string CardOutcome(KeepOutcome kept) => KeptWords.OfCard(kept.Name, kept.CardsAdded, kept.History) + "\n";

    public static string Outcome(KeepOutcome kept) => KeptWords.OfFile(kept.Name, kept.Added, kept.AlreadyThere, kept.History) + "\n";

    public static string OutcomeJson(KeepOutcome kept) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("name", kept.Name);
        json.WriteNumber("added", kept.Added);
        json.WriteNumber("alreadyThere", kept.AlreadyThere);
        json.WriteNumber("history", kept.History);
        json.WriteNumber("cardsAdded", kept.CardsAdded);
        json.WriteEndObject();
    });

    public static string ListJson(IReadOnlyList<KeptCamera> cameras) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteStartArray("cameras");
        foreach (KeptCamera camera in cameras)
            CameraFile.Write(json, camera);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    private static string Base(KeptMeasurement m) =>
        m.Levels.Where(l => l is { Usable: true, ReadNoiseElectrons: not null }).MinBy(l => l.Iso) is { } level
            ? $"read noise {Figures.Fixed(level.ReadNoiseElectrons!.Value.Value, 2)}{Figures.NoBreak}{Figures.Electrons} at {Figures.Name(level.Iso)} ({Statement.Word(HowKnown.Measured)})"
            : "no read noise";

    private static string Told(Statement statement) => $"{statement.Text} ({Statement.Word(statement.Known!.Value)})";

    // What a kept level does not hold, no line here asks for.
    private static Level Whole(KeptLevel kept) => new()
    {
        Iso = kept.Iso,
        Ladder = kept.Ladder,
        Frames = [],
        GainElectronsPerDn = kept.GainElectronsPerDn,
        ReadNoiseElectrons = kept.ReadNoiseElectrons,
        ReadNoiseSource = kept.ReadNoiseSource,
        SaturationElectrons = kept.SaturationElectrons,
        ClipSeen = kept.ClipSeen,
        Usable = kept.Usable,
        Flags = [.. kept.Flags.Where(f => f != LevelFlag.HotPixels)],
        Reason = kept.Reason,
    };

    private static string How(KeptMeasurement m) => m.IsImported ? "imported, measured" : "measured";

    private static string Day(KeptMeasurement m) => m.MeasuredAt.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Tells measurings of one day apart.</summary>
    private static string Time(KeptMeasurement m) => m.MeasuredAt.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Times(KeptCamera camera) => camera.Measurements.Length > 1 ? $", {camera.Measurements.Length} times in all" : "";

    private static string Count(int n, string one, string many) => n == 1 ? $"1 {one}" : $"{Figures.Fixed(n, 0)} {many}";

    private static string Ladder(LadderKind kind) => kind switch
    {
        LadderKind.Metered => "a metered ladder",
        LadderKind.SameLight => "a same-light ladder",
        LadderKind.Mixed => "both ladders",
        _ => "no ladder",
    };
}
