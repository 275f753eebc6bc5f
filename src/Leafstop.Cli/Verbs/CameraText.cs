using System.Globalization;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
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
            KeptLevel[] usable = [.. camera.Newest.Levels.Where(l => l.Usable)];
            string isos = usable.Length > 0 ? $"ISO {usable.MinBy(l => l.Iso)!.Iso.ToDisplay()} to {usable.MaxBy(l => l.Iso)!.Iso.ToDisplay()}" : "no usable level";
            text.AppendLine(CultureInfo.InvariantCulture, $"{camera.Name.PadRight(width)}{isos}, {How(camera.Newest)} {Day(camera.Newest)}{Times(camera)}");
        }
        return text.ToString();
    }

    public static string Show(KeptCamera camera)
    {
        KeptMeasurement newest = camera.Newest;
        CameraIdentity body = newest.Camera;
        StringBuilder text = new();
        text.AppendLine(camera.Name);
        text.AppendLine(CultureInfo.InvariantCulture,
            $"{BenchAccount.CameraName(body)}, {body.Width} x {body.Height}, mosaic {body.Mosaic}, {body.Bits} bit, {How(newest)} {Day(newest)}, {Ladder(newest.Ladder)}.");
        text.AppendLine();
        text.AppendLine("  ISO       gain         read noise            saturation    range");
        text.AppendLine("            e-/DN        e- (95 %)             e-            stops");
        foreach (KeptLevel level in newest.Levels)
        {
            string row = $"  {level.Iso.ToDisplay(),-10}{Figure(level.GainElectronsPerDn?.Value),-13}{Noise(level),-22}{Figure(level.SaturationElectrons),-14}";
            text.AppendLine(row + One(level.DynamicRangeStops));
            if (!level.Usable)
                text.AppendLine(CultureInfo.InvariantCulture, $"            left off: {level.Reason ?? "no reason was kept"}");
        }
        text.AppendLine();
        text.AppendLine(newest.GainSteps.IsEmpty
            ? "No gain step is kept."
            : $"Gain step between {string.Join(" and between ", newest.GainSteps.Select(s => $"ISO {s.Below.ToDisplay()} and {s.Above.ToDisplay()}"))}.");
        if (camera.Measurements.Length > 1)
        {
            text.AppendLine();
            text.AppendLine("History, oldest first:");
            foreach (KeptMeasurement m in camera.Measurements)
                text.AppendLine(CultureInfo.InvariantCulture, $"  {Day(m)}  {How(m)}, {m.Levels.Count(l => l.Usable)} usable levels, read noise at ISO {Base(m)}");
        }
        return text.ToString();
    }

    public static string Outcome(KeepOutcome kept) => (kept.Added, kept.AlreadyThere) switch
    {
        (0, _) => $"'{kept.Name}' holds all of this already; nothing was changed.\n",
        (_, 0) => $"Kept as '{kept.Name}': {Count(kept.Added)} added, {kept.History} in its history.\n",
        _ => $"Kept as '{kept.Name}': {Count(kept.Added)} added, {kept.AlreadyThere} were there already, {kept.History} in its history.\n",
    };

    public static string OutcomeJson(KeepOutcome kept) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("name", kept.Name);
        json.WriteNumber("added", kept.Added);
        json.WriteNumber("alreadyThere", kept.AlreadyThere);
        json.WriteNumber("history", kept.History);
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
        m.Levels.Where(l => l.Usable).MinBy(l => l.Iso) is { } level ? $"{level.Iso.ToDisplay()} {Figure(level.ReadNoiseElectrons?.Value)} e-" : "unknown";

    private static string Noise(KeptLevel level) =>
        level.ReadNoiseElectrons is { } r ? $"{Figure(r.Value)} ({Figure(Math.Max(0, r.Low))} to {Figure(r.High)})" : "-";

    // Three figures, as the intervals allow.
    private static string Figure(double? value) => value switch
    {
        null => "-",
        0 => "0",
        >= 1000 => Math.Round(value.Value / 10).ToString("0", CultureInfo.InvariantCulture) + "0",
        _ => Math.Round(value.Value, Math.Clamp(2 - (int)Math.Floor(Math.Log10(value.Value)), 0, 12)).ToString("0.############", CultureInfo.InvariantCulture),
    };

    private static string One(double? value) => value?.ToString("0.0", CultureInfo.InvariantCulture) ?? "-";

    private static string How(KeptMeasurement m) => m.IsImported ? "imported, measured" : "measured";

    private static string Day(KeptMeasurement m) => m.MeasuredAt.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Times(KeptCamera camera) => camera.Measurements.Length > 1 ? $", {camera.Measurements.Length} times in all" : "";

    private static string Count(int n) => n == 1 ? "1 measuring" : $"{n} measurings";

    private static string Ladder(LadderKind kind) => kind switch
    {
        LadderKind.Metered => "metered ladder",
        LadderKind.SameLight => "same-light ladder",
        LadderKind.Mixed => "both ladders",
        _ => "no ladder",
    };
}
