using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Everything that is said of a bench test, in the order in which it is said. The terminal and the report print it, each in its own form.</summary>
public sealed record BenchAccount
{
    /// <summary>Verdict first.</summary>
    public required BenchVerdict Verdict { get; init; }

    /// <summary>"Body A, 14-bit raw, 2×2 mosaic"; empty without a camera.</summary>
    public required string Camera { get; init; }

    /// <summary>"18 frames and 18 cap frames".</summary>
    public required string FrameCount { get; init; }

    /// <summary>The table, one group a ladder.</summary>
    public required IReadOnlyList<IGrouping<LadderKind, LevelRow>> Groups { get; init; }

    /// <summary>How many levels hold, in a sentence; null when none does.</summary>
    public required Statement? Holding { get; init; }

    /// <summary>The gain steps.</summary>
    public required IReadOnlyList<Statement> Steps { get; init; }

    /// <summary>Lift or dial: the ISO to stop at; null when there is none to name.</summary>
    public required Statement? StopAt { get; init; }

    /// <summary>Worked-out limits, one group of sentences a tone.</summary>
    public required IReadOnlyList<LimitWords> Limits { get; init; }

    /// <summary>How each number is known.</summary>
    public required IReadOnlyList<Statement> HowKnown { get; init; }

    /// <summary>Names of frames.</summary>
    public required FrameNames Names { get; init; }

    /// <summary>Puts an answer into words.</summary>
    public static BenchAccount Of(BenchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new BenchAccount
        {
            Verdict = BenchVerdict.Of(answer),
            Camera = answer.Camera is { } c ? Described(c) : "",
            FrameCount = Frames(answer),
            Groups = [.. answer.Levels.Select(l => LevelRow.Of(l, answer)).GroupBy(r => r.Level.Ladder)],
            Holding = LevelsThatHold(answer),
            Steps = [.. answer.GainSteps.Select(Step)],
            StopAt = StopAtOf(answer),
            Limits = [.. answer.PredictedLimits.Select(LimitWords.Of)],
            HowKnown = [.. Sources.Of(answer)],
            Names = new FrameNames(answer.Levels.SelectMany(l => l.Frames.Concat(l.CapFrames)).Concat(answer.Findings.SelectMany(f => f.Frames))),
        };
    }

    /// <summary>Maker and model on one line, the maker once.</summary>
    public static string CameraName(CameraIdentity camera)
    {
        string name = camera.Model.StartsWith(camera.Make, StringComparison.OrdinalIgnoreCase) ? camera.Model : $"{camera.Make} {camera.Model}";
        return OneLine.Of(name.Trim());
    }

    /// <summary>"Body A, 14-bit raw, 2×2 mosaic, 8256 × 5504".</summary>
    public static string Described(CameraIdentity camera) => camera.Width == 0
        ? "The body is not known."
        : $"{CameraName(camera)}, {camera.Bits}-bit raw, {camera.Mosaic.Replace('x', '×')} mosaic, {Figures.Fixed(camera.Width, 0)}{Figures.NoBreak}×{Figures.NoBreak}{Figures.Fixed(camera.Height, 0)}";

    private static string Frames(BenchAnswer answer)
    {
        int light = answer.Levels.Sum(l => l.Frames.Length);
        int caps = answer.Levels.Sum(l => l.CapFrames.Length);
        if (light + caps == 0)
            return answer.Camera is null ? "No raw frames" : "No frames with light";
        string frames = light == 1 ? "1 frame" : $"{Figures.Fixed(light, 0)} frames";
        return caps == 0 ? $"{frames}, no cap frames" : $"{frames} and {Figures.Fixed(caps, 0)} cap {(caps == 1 ? "frame" : "frames")}";
    }

    private static Statement? LevelsThatHold(BenchAnswer answer)
    {
        IReadOnlyList<Iso> again = BenchVerdict.Reshoot(answer);
        Level[] holding = [.. answer.Levels.Where(l => l.Usable && !again.Contains(l.Iso))];
        if (holding.Length == 0)
            return null;
        bool all = holding.Length == answer.Levels.Length;
        string who = holding.Length == 1 ? $"{Figures.Name(holding[0].Iso)} holds." : all ? holding.Length == 2 ? "Both levels hold." : $"All {Figures.Count(holding.Length)} levels hold." : $"The other {Figures.Count(holding.Length)} levels hold.";
        double[] light = [.. holding.Select(l => l.LightErrorStops).OfType<double>().Where(double.IsFinite).Select(Math.Abs)];
        return light.Length == 0
            ? new Statement(who)
            : new Statement($"{who} Their light agrees within {Figures.Fixed(Math.Max(0.01, Math.Ceiling(light.Max() * 100 - 1e-9) / 100), 2)}{Figures.NoBreak}stop.", Core.Quantities.HowKnown.Measured);
    }

    /// <summary>A gain step in a sentence.</summary>
    public static Statement Step(GainStep step) => new(
        $"Read noise steps down by {Figures.Fixed(step.Ratio, 1)} times between ISO{Figures.NoBreak}{Figures.Speed(step.Below)} and {Figures.Speed(step.Above)}.",
        Core.Quantities.HowKnown.Measured);

    private static Statement? StopAtOf(BenchAnswer answer)
    {
        if (answer.StopAt is not { } stop)
            return null;
        string why = answer.GainSteps.Any(s => s.Above == stop) ? ": it is the first above the step" : "";
        return new Statement($"In the same light, stop at {Figures.Name(stop)} and lift the rest{why}.", Core.Quantities.HowKnown.WorkedOut);
    }
}
