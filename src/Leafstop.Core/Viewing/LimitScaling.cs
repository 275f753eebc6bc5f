using System.Globalization;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>By how many stops a limit moves when something else than the judged print is asked of it.</summary>
/// <remarks>Fine random grain only: what counts is how many degrees of view the sensor covers, so the limit goes with (viewing distance / print width)². Noise of a mean
/// falls by √n (PRN-03, M-01), which is log2 n stops of light. Banding and blotches do not scale and are judged apart.</remarks>
public static class LimitScaling
{
    /// <summary>Said with every converted limit.</summary>
    public const string BandingCaveat = "This holds for fine grain. Banding and blotches do not scale away: check those separately.";

    /// <summary>What textured tones forgive over smooth ones, stops. A rule of thumb: common practice, no source.</summary>
    public static readonly Stops TextureForgives = Stops.Of(1);

    /// <summary>From one print to another: 2 · log2((d₂/w₂) / (d₁/w₁)).</summary>
    /// <param name="from">The print the limit holds for.</param>
    /// <param name="to">The print that is asked.</param>
    public static LimitShift Print(PrintCondition from, PrintCondition to)
    {
        double wider = Positive(to.WidthMm, "A print is wider than nothing.") / Positive(from.WidthMm, "A print is wider than nothing.");
        double farther = Positive(to.ViewingDistanceMm, "A print is seen from some distance.") / Positive(from.ViewingDistanceMm, "A print is seen from some distance.");
        Stops stops = Stops.Of(2 * Math.Log2(farther / wider));
        string effect = Math.Abs(stops.Value) < 1e-9 ? "the grain looks as fine as before, so the limit stays"
            : stops.Value > 0 ? $"the grain looks finer, so the limit rises by {Number(stops)}" : $"the grain looks coarser, so the limit falls by {Number(stops)}";
        return new LimitShift(LimitShiftKind.Print, stops, $"{Times(wider)} as wide, seen from {Times(farther)} as far: {effect}.", HowKnown.WorkedOut);
    }

    /// <summary>A crop printed at the full size: 2 · log2 of the share of the width that is kept.</summary>
    /// <param name="widthKept">Above 0, at most 1.</param>
    public static LimitShift Crop(double widthKept)
    {
        Stops stops = CropStops(widthKept);
        return new LimitShift(LimitShiftKind.Crop, stops, $"The crop keeps {Share(widthKept)} of the width and is enlarged the more: {Number(stops)}.", HowKnown.WorkedOut);
    }

    /// <summary>The stops of <see cref="Crop"/> without the words, for what is worked out over and over.</summary>
    internal static Stops CropStops(double widthKept) => widthKept is > 0 and <= 1
        ? Stops.Of(2 * Math.Log2(widthKept))
        : throw new ArgumentOutOfRangeException(nameof(widthKept), widthKept, "A crop keeps a share of the width above 0 and at most 1.");

    /// <summary>Shadows opened by some stops: they carry only the light of an ISO as much higher.</summary>
    /// <remarks>Of a lift that the limit was judged with only what goes beyond it counts. A smaller one does not raise the limit: how much brighter tones alone would bear was not judged.</remarks>
    /// <param name="lift">Zero or more.</param>
    /// <param name="judged">The lift that the limit already holds for (<see cref="LimitTags.Lift"/>); null for none.</param>
    public static LimitShift Lift(Stops lift, Stops? judged = null)
    {
        Stops stops = LiftStops(lift, judged);
        return new LimitShift(LimitShiftKind.Lift, stops, judged is not { Value: > 0 } known ? $"Lifted shadows carry only the light of an ISO {Number(lift)} higher."
            : stops.Value < -Stops.Hair ? $"This was judged with the dark lifted by {Number(known)}: {Number(stops)} of your lift of {Number(lift)} goes beyond it and counts."
            : $"This was judged with the dark lifted by {Number(known)}: your lift of {Number(lift)} is in it already.", HowKnown.WorkedOut);
    }

    /// <summary>The stops of <see cref="Lift"/> without the words, for what is worked out over and over.</summary>
    internal static Stops LiftStops(Stops lift, Stops? judged)
    {
        if (lift.Value < 0)
            throw new ArgumentOutOfRangeException(nameof(lift), lift.Value, "A lift is zero or more stops.");
        return judged is not { Value: > 0 } known ? -lift : lift > known ? known - lift : default;
    }

    /// <summary>From smooth to textured tones or back; null when either is another tone, because no rule leads there.</summary>
    public static LimitShift? Tone(ToneKind from, ToneKind to) => (from, to) switch
    {
        _ when from == to => new LimitShift(LimitShiftKind.Tone, default, "The same tone: the limit stays.", HowKnown.WorkedOut),
        (ToneKind.Smooth, ToneKind.Textured) => new LimitShift(LimitShiftKind.Tone, TextureForgives, "Texture hides noise: about 1 stop.", HowKnown.RuleOfThumb),
        (ToneKind.Textured, ToneKind.Smooth) => new LimitShift(LimitShiftKind.Tone, -TextureForgives, "Smooth tones show noise: about 1 stop.", HowKnown.RuleOfThumb),
        _ => null,
    };

    /// <summary>From one sensor format to another of like build, printed at the same size: 2 · log2 of the ratio of widths.</summary>
    /// <param name="from">Format width of the limit.</param>
    /// <param name="to">Format width that is asked.</param>
    public static LimitShift Format(Length from, Length to)
    {
        double ratio = Positive(to.Millimetres, "A format is wider than nothing.") / Positive(from.Millimetres, "A format is wider than nothing.");
        Stops stops = Stops.Of(2 * Math.Log2(ratio));
        return new LimitShift(
            LimitShiftKind.Format, stops,
            $"A format {Times(ratio)} as wide gathers {Number(stops)} {(stops.Value < 0 ? "less" : "more")} light for the picture at the same ISO. Equal depth and equal shutter make it a draw, apart from read noise and lens.",
            HowKnown.WorkedOut);
    }

    /// <summary>The aperture that gives another format the same depth at the same framing: N · w₂ / w₁. It gives back exactly what <see cref="Format"/> takes.</summary>
    public static FNumber EqualDepth(FNumber aperture, Length from, Length to) =>
        FNumber.FromRatio(aperture.Ratio * Positive(to.Millimetres, "A format is wider than nothing.") / Positive(from.Millimetres, "A format is wider than nothing."));

    /// <summary>The mean of some frames, in everything that stands still: log2 n. Source: PRN-03, M-01.</summary>
    /// <param name="frames">1 or more.</param>
    public static LimitShift Averaging(int frames)
    {
        Stops stops = FrameAveraging.Gain(frames);
        return new LimitShift(LimitShiftKind.Averaging, stops, $"The mean of {frames} frames holds the light of {frames}, in what stands still: {Number(stops)}.", HowKnown.WorkedOut);
    }

    private static double Positive(double value, string sentence) => double.IsFinite(value) && value > 0
        ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, sentence);

    private static string Times(double ratio) => Math.Abs(ratio - 1) < 1e-9 ? "just" : string.Create(CultureInfo.InvariantCulture, $"{ratio:0.##} times");

    private static string Share(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.#} %");

    private static string Number(Stops stops) =>
        string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(stops.Value):0.##} {(Math.Abs(stops.Value) > 1.005 ? "stops" : "stop")}");
}
