using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>One line of the level table, as it is written on every surface. A number that is not known is empty.</summary>
public sealed record LevelRow(
    Level Level, string Iso, string Frames, string Gain, string ReadNoise, string PlusMinus, string ClipsAt, string Range, string SignalToNoise, string Remark)
{
    /// <summary>Share of saturation at which metered mid-grey lies (EXP-29).</summary>
    public static double MidGreyShare => MeteredTone.MidGreyShare;

    /// <summary>False when the numbers of the row are to be struck out.</summary>
    public bool Usable => Level.Usable;

    /// <summary>Writes one level of an answer.</summary>
    public static LevelRow Of(Level level, BenchAnswer answer) => Of(level, answer.GainSteps.Any(s => s.Above == level.Iso));

    /// <summary>Writes one level.</summary>
    public static LevelRow Of(Level level, bool isAboveStep)
    {
        NoiseModel? model = level.Usable ? level.Model : null;
        return new LevelRow(
            level,
            Figures.Speed(level.Iso),
            Figures.Fixed(level.Frames.Length, 0),
            level.GainElectronsPerDn is { } gain && double.IsFinite(gain.Value) ? Figures.Gain(gain.Value) : "",
            level.ReadNoiseElectrons is { } noise && double.IsFinite(noise.Value) ? Figures.Fixed(noise.Value, 2) : "",
            level.ReadNoiseElectrons is { } band && double.IsFinite(band.High - band.Low) && level.Usable ? Figures.PlusMinus(band, 2) : "",
            level.SaturationElectrons is { } clip && double.IsFinite(clip) ? Figures.Fixed(clip, 0) : "",
            model is not null && double.IsFinite(model.DynamicRangeStops) ? Figures.Fixed(model.DynamicRangeStops, 1) : "",
            model is not null && SignalToNoiseAt(model, -3) is var ratio && double.IsFinite(ratio) ? Figures.Fixed(ratio, 1) : "",
            LevelWords.Remark(level, isAboveStep));
    }

    /// <summary>How the columns of a table are known: column names without a full stop.</summary>
    /// <param name="rows">The rows of the table.</param>
    /// <param name="withSignalToNoise">False for a table without that column.</param>
    public static IReadOnlyList<Statement> Known(IEnumerable<LevelRow> rows, bool withSignalToNoise = true)
    {
        string range = withSignalToNoise ? "Range and S/N" : "Range";
        LevelRow[] clipped = [.. rows.Where(r => r.ClipsAt.Length > 0)];
        return clipped.All(r => r.Level.ClipSeen) ? [new("Gain, read noise and clip", HowKnown.Measured), new(range, HowKnown.WorkedOut)]
            : clipped.Any(r => r.Level.ClipSeen) ? [new("Gain, read noise and a clip that was seen", HowKnown.Measured), new($"{(withSignalToNoise ? "Range, S/N" : "Range")} and a clip that was not seen", HowKnown.WorkedOut)]
            : [new("Gain and read noise", HowKnown.Measured), new(withSignalToNoise ? "Clip, range and S/N" : "Clip and range", HowKnown.WorkedOut)];
    }

    /// <summary>Signal-to-noise of one pixel at a tone, correctly metered.</summary>
    /// <param name="model">Sensor model of the level.</param>
    /// <param name="toneEv">Stops from metered mid-grey.</param>
    public static double SignalToNoiseAt(NoiseModel model, double toneEv) =>
        MeteredTone.SignalToNoise(model, toneEv);
}
