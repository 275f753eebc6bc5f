using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>Limits worked out from the sensor model by <see cref="PrintCriterion"/>; the person's own judging replaces them.</summary>
public static class LimitPrediction
{
    private const int StepsPerStop = 48;

    /// <summary>One limit a tone, mid-grey and three stops below.</summary>
    /// <param name="curve">Sensor over ISO.</param>
    /// <param name="camera">Body, for the pixels across and the tag.</param>
    /// <param name="print">Print and distance.</param>
    public static ImmutableArray<PredictedLimit> Of(ModelCurve curve, CameraIdentity camera, PrintCondition print)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(camera);
        ArgumentNullException.ThrowIfNull(print);
        double across = Math.Max(camera.Width, camera.Height);
        double perDegree = PrintCriterion.PixelsPerDegree(across / print.WidthMm, print.ViewingDistanceMm);
        double gain = LuminanceNoise.For(camera.Mosaic).SignalToNoiseGain(PrintCriterion.MergedSide(perDegree));
        return
        [
            At(LimitTone.MidGrey, 0),
            At(LimitTone.Minus3Ev, -3),
        ];

        PredictedLimit At(LimitTone tone, double toneEv) => new()
        {
            Tone = tone,
            CleanExact = Highest(curve, toneEv, gain, PrintCriterion.Needed(PrintCriterion.Clean, perDegree)),
            StretchExact = Highest(curve, toneEv, gain, PrintCriterion.Needed(PrintCriterion.Stretch, perDegree)),
            AcceptableExact = Highest(curve, toneEv, gain, PrintCriterion.Needed(PrintCriterion.Acceptable, perDegree)),
            Body = camera.ToWords(),
            Print = print,
            Treatment = "none",
        };
    }

    /// <summary>True when a level of the criterion still holds at an ISO that was measured; tells a limit above all levels from one below them.</summary>
    /// <param name="curve">Sensor over ISO.</param>
    /// <param name="camera">Body, for the pixels across.</param>
    /// <param name="print">Print and distance.</param>
    /// <param name="tone">Tone.</param>
    /// <param name="level">A level of <see cref="PrintCriterion"/>.</param>
    /// <param name="iso">Inside <see cref="ModelCurve.Range"/>.</param>
    public static bool Holds(ModelCurve curve, CameraIdentity camera, PrintCondition print, LimitTone tone, double level, Iso iso)
    {
        double perDegree = PrintCriterion.PixelsPerDegree(Math.Max(camera.Width, camera.Height) / print.WidthMm, print.ViewingDistanceMm);
        double gain = LuminanceNoise.For(camera.Mosaic).SignalToNoiseGain(PrintCriterion.MergedSide(perDegree));
        return MeteredTone.SignalToNoise(curve.At(iso.Speed), tone == LimitTone.Minus3Ev ? -3 : 0) * gain >= PrintCriterion.Needed(level, perDegree);
    }

    /// <summary>Highest ISO whose luminance still has the needed ratio; null when it lies below or above the measured levels.</summary>
    private static Iso? Highest(ModelCurve curve, double toneEv, double gain, double needed)
    {
        var (lowest, highest) = curve.Range;
        if (Holds(highest)) return null;
        double stops = Math.Log2(highest / lowest);
        int count = Math.Max(1, (int)Math.Ceiling(stops * StepsPerStop));
        for (int i = count - 1; i >= 0; i--)
        {
            double inside = IsoAt(i);
            if (!Holds(inside)) continue;
            double outside = IsoAt(i + 1);
            for (int round = 0; round < 50; round++)
            {
                double middle = Math.Sqrt(inside * outside);
                if (Holds(middle)) inside = middle;
                else outside = middle;
            }

            return Iso.FromSpeed(inside);
        }

        return null;

        double IsoAt(int i) => i == count ? highest : lowest * Math.Pow(2, stops * i / count);
        bool Holds(double iso) => MeteredTone.SignalToNoise(curve.At(iso), toneEv) * gain >= needed;
    }
}
