using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Noise against light at one level, both ruled in stops: points with 95 % whiskers, the fitted line, and what light alone and read noise alone would give.</summary>
public sealed class TransferPlot
{
    private readonly Axis _signal;
    private readonly Axis _noise;

    /// <summary>One pair of axes for all levels of a report, so that plots can be laid side by side.</summary>
    public TransferPlot(IEnumerable<Level> levels)
    {
        TransferPoint[] points = [.. levels.SelectMany(Visible)];
        _signal = Axis.InStops(Math.Max(1, points.Min(p => p.SignalDn)), points.Max(p => p.SignalDn), 2);
        _noise = Axis.InStops(Math.Max(0.25, points.Min(p => p.NoiseDn.Value) / 1.4), points.Max(p => p.NoiseDn.Value), 2);
    }

    /// <summary>Points that a plot ruled in stops can show: signal and noise above zero.</summary>
    public static IEnumerable<TransferPoint> Visible(Level level) => level.Curve.Where(p => p.SignalDn >= 0.5 && p.NoiseDn.Value > 0);

    /// <summary>Draws a level.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="level">Level with at least one visible point.</param>
    /// <param name="isMain">The large plot, with words at its lines.</param>
    public void Draw(Markup page, Level level, bool isMain)
    {
        var plot = new Plot(_signal, _noise, isMain ? 300 : 150, isSmall: !isMain);
        double? gain = level.GainElectronsPerDn is { Value: > 0 } fitted && double.IsFinite(fitted.Value) ? fitted.Value : null;
        double? read = level.ReadNoiseDn ?? level.ReadNoiseElectrons?.Value / gain;
        if (gain is { } g && read is { } r)
        {
            double[] signals = [.. Enumerable.Range(0, 61).Select(i => _signal.Low * Math.Pow(_signal.High / _signal.Low, i / 60.0))];
            double end = level.Curve.Max(p => p.SignalDn);
            plot.Curve(Inside(signals.Where(s => s <= end).Append(end).Select(s => (s, Math.Sqrt(s / g)))), isTheory: true);
            double mid = _signal.Low * Math.Pow(_signal.High / _signal.Low, 0.46);
            if (r >= _noise.Low)
                plot.Curve([(_signal.Low, r), (mid, r)], isTheory: true);
            plot.Curve(Inside(signals.Where(s => s <= end).Append(end).Select(s => (s, Math.Sqrt((r * r) + (s / g))))), isTheory: false);
            if (isMain)
            {
                double two = _signal.Low * Math.Pow(_signal.High / _signal.Low, 0.64);
                plot.Label(two, Math.Sqrt(two / g), "light alone", 8, 26);
                plot.Label(mid, Math.Max(r, _noise.Low), $"read noise {Figures.Significant(r)}", 8, 5);
            }
        }

        foreach (TransferPoint point in Visible(level).OrderBy(p => p.SignalDn))
        {
            plot.Point(
                point.SignalDn, point.NoiseDn.Value, point.NoiseDn.Low, point.NoiseDn.High, level.Usable ? PointState.Solid : PointState.Open, isMain ? 3.2 : 2,
                isMain ? $"{point.Plane}, signal {Figures.Significant(point.SignalDn)}: noise {Figures.Significant(point.NoiseDn.Value)}, {Figures.Between(point.NoiseDn, 2)}" : "");
        }

        plot.Draw(page, Sentence(level, gain, read));
    }

    /// <summary>The points as a table.</summary>
    public static void Numbers(Markup page, Level level) => NumberTable.Write(
        page,
        $"Noise against light at {Figures.Name(level.Iso)}, raw units above black",
        ["plane", "signal", "noise", "95\u00A0% from", "to", "samples"],
        level.Curve.OrderBy(p => p.Plane, StringComparer.Ordinal).ThenBy(p => p.SignalDn).Select(p => new[]
        {
            p.Plane, Figures.Significant(p.SignalDn), Figures.Significant(p.NoiseDn.Value), Figures.Significant(p.NoiseDn.Low), Figures.Significant(p.NoiseDn.High), Figures.Fixed(p.Samples, 0),
        }),
        printed: false);

    private IEnumerable<(double, double)> Inside(IEnumerable<(double X, double Y)> points) => points.Where(p => p.Y >= _noise.Low && p.Y <= _noise.High);

    private static string Sentence(Level level, double? gain, double? read) => gain is { } g && read is { } r
        ? $"Noise against signal at {Figures.Name(level.Iso)}, both ruled in stops. Read noise is {Figures.Significant(r)} raw units; from about {Figures.Significant(r * r * g)} raw units of signal upwards the light's own noise is the larger part."
        : $"Noise against signal at {Figures.Name(level.Iso)}, both ruled in stops. No line could be fitted.";
}
