using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Plots of one number against ISO: read noise, range, and how far neighbouring pixels agree.</summary>
public sealed class LevelPlots
{
    private const double Height = 300;

    private readonly BenchAnswer _answer;
    private readonly HashSet<Iso> _again;
    private readonly Axis _iso;

    /// <summary>One axis of ISO for all plots.</summary>
    public LevelPlots(BenchAnswer answer)
    {
        _answer = answer;
        _again = [.. BenchVerdict.Reshoot(answer)];
        _iso = Axis.OfIso(answer.Levels.Min(l => l.Iso.Speed), answer.Levels.Max(l => l.Iso.Speed));
    }

    /// <summary>Read noise in electrons with intervals and the step.</summary>
    public void ReadNoise(Markup page, Action caption)
    {
        Value[] values = Values(Noise);
        var plot = new Plot(_iso, Axis.Even(0, values.Max(v => v.Of.High)), Height);
        Join(plot, values, namesStep: true);
        Points(plot, values, v => $"{Figures.Fixed(v.Value, 2)}{Figures.NoBreak}e\u2212, {Figures.Between(v, 2)}");
        plot.Draw(page, $"Read noise in electrons against ISO: {Listed(values, 2)}.{Steps()}");
        caption();
        NumberTable.Write(page, "Read noise, electrons", ["ISO", "read noise", "95\u00A0% from", "to", "source"],
            values.Select(v => new[] { Figures.Speed(v.Level.Iso), Figures.Fixed(v.Of.Value, 3), Figures.Fixed(v.Of.Low, 3), Figures.Fixed(v.Of.High, 3), v.Level.ReadNoiseSource == ReadNoiseSource.CapFrames ? "cap frames" : "noise curve" }), printed: true);
    }

    /// <summary>Range in stops; its interval is that of the read noise.</summary>
    public void Range(Markup page, Action caption)
    {
        Value[] values = Values(RangeOf);
        var plot = new Plot(_iso, Axis.Even(Math.Floor(values.Min(v => v.Of.Low)) - 1, values.Max(v => v.Of.High)), Height);
        Join(plot, values, namesStep: false);
        Points(plot, values, v => $"{Figures.Fixed(v.Value, 2)}{Figures.NoBreak}stops, {Figures.Between(v, 2)}");
        plot.Draw(page, $"Range in stops against ISO: {Listed(values, 1)}.");
        caption();
        NumberTable.Write(page, "Range, stops", ["ISO", "range", "95\u00A0% from", "to"],
            values.Select(v => new[] { Figures.Speed(v.Level.Iso), Figures.Fixed(v.Of.Value, 2), Figures.Fixed(v.Of.Low, 2), Figures.Fixed(v.Of.High, 2) }), printed: true);
    }

    /// <summary>Correlation of neighbouring pixels with the line from which noise counts as smoothed.</summary>
    public void Correlation(Markup page, Action caption)
    {
        const double Smoothed = 0.05;
        Value[] values = Values(CorrelationOf);
        var plot = new Plot(_iso, Axis.Even(Math.Min(-0.01, values.Min(v => v.Of.Value)), Math.Max(0.08, values.Max(v => v.Of.Value))), Height);
        plot.Curve([(_iso.Low, Smoothed), (_iso.High, Smoothed)], isTheory: true);
        plot.Label(_iso.Low, Smoothed, "0.05: from here, smoothed", 8, -8);
        Points(plot, values, v => Figures.Fixed(v.Value, 3));
        plot.Draw(page, $"Agreement of neighbouring pixels against ISO: {Listed(values, 3)}. From 0.05 noise counts as smoothed in camera.");
        caption();
        NumberTable.Write(page, "Agreement of neighbouring pixels (0 is honest noise, 1 is full agreement)", ["ISO", "agreement", "flag"],
            values.Select(v => new[] { Figures.Speed(v.Level.Iso), Figures.Fixed(v.Of.Value, 3), v.Level.Flags.Contains(LevelFlag.Smoothed) ? "smoothed" : "" }), printed: true);
    }

    /// <summary>True when some level has a read noise with a finite interval.</summary>
    public bool HasReadNoise => Values(Noise).Length > 0;

    /// <summary>True when some level has a range.</summary>
    public bool HasRange => Values(RangeOf).Length > 0;

    /// <summary>True when some level has a correlation.</summary>
    public bool HasCorrelation => Values(CorrelationOf).Length > 0;

    private static Estimate? Noise(Level level) => level.ReadNoiseElectrons;

    private static Estimate? RangeOf(Level level) => level.Model is { } m && level.ReadNoiseElectrons is { Low: > 0 } r
        ? new Estimate(m.DynamicRangeStops, Math.Log2(m.SaturationElectrons / r.High), Math.Log2(m.SaturationElectrons / r.Low))
        : null;

    private static Estimate? CorrelationOf(Level level) => level.NeighbourCorrelation is { } rho ? new Estimate(rho, rho, rho) : null;

    private Value[] Values(Func<Level, Estimate?> number) =>
        [.. _answer.Levels.Select(l => (l, number(l))).Where(v => v.Item2 is { } e && double.IsFinite(e.Value) && double.IsFinite(e.High) && double.IsFinite(e.Low)).Select(v => new Value(v.l, v.Item2!.Value))];

    private void Join(Plot plot, Value[] values, bool namesStep)
    {
        foreach (IGrouping<LadderKind, Value> ladder in values.Where(v => v.Level.Usable).GroupBy(v => v.Level.Ladder))
        {
            List<(double X, double Y)> run = [];
            Value? last = null;
            foreach (Value value in ladder.OrderBy(v => v.Level.Iso))
            {
                if (last is { } before && _answer.GainSteps.FirstOrDefault(s => s.Above == value.Level.Iso) is { } step && before.Level.Iso == step.Below)
                {
                    double middle = Math.Sqrt(step.Below.Speed * step.Above.Speed);
                    plot.Curve([.. run, (middle, before.Of.Value)], isTheory: false).Upright(middle, before.Of.Value, value.Of.Value);
                    if (namesStep)
                        plot.Label(middle, (before.Of.Value + value.Of.Value) / 2, "step", 10, 5);
                    run = [(middle, value.Of.Value)];
                }

                run.Add((value.Level.Iso.Speed, value.Of.Value));
                last = value;
            }

            if (run.Count > 1)
                plot.Curve(run, isTheory: false);
        }
    }

    private void Points(Plot plot, Value[] values, Func<Estimate, string> read)
    {
        foreach (Value value in values.OrderBy(v => v.Level.Iso))
        {
            PointState state = !value.Level.Usable ? PointState.LeftOff : _again.Contains(value.Level.Iso) ? PointState.Open : PointState.Solid;
            plot.Point(value.Level.Iso.Speed, value.Of.Value, value.Of.Low, value.Of.High, state,
                reading: $"{Figures.Name(value.Level.Iso)}: {read(value.Of)}{state switch { PointState.LeftOff => ", left off", PointState.Open => ", reshoot", _ => "" }}");
            double at = _iso.At(value.Level.Iso.Speed);
            // Beside other points the words would lie on them or on their words: "left off" is 56 px wide, the narrowest plot 254 px. The caption explains the cross.
            if (state != PointState.LeftOff || values.Any(v => v != value && Math.Abs(_iso.At(v.Level.Iso.Speed) - at) < 0.25))
                continue;
            plot.Label(value.Level.Iso.Speed, value.Of.Value, "left off", at > 0.9 ? 6 : at < 0.1 ? -6 : 0, 26, at > 0.9 ? "end" : at < 0.1 ? "start" : "middle");
        }
    }

    private static string Listed(Value[] values, int decimals) =>
        string.Join(", ", values.Select(v => $"{Figures.Fixed(v.Of.Value, decimals)} at {Figures.Speed(v.Level.Iso)}{(v.Level.Usable ? "" : " (left off)")}"));

    private string Steps() => string.Concat(_answer.GainSteps.Select(s => $" It steps down between {Figures.Speed(s.Below)} and {Figures.Speed(s.Above)}."));

    private readonly record struct Value(Level Level, Estimate Of);
}
