using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>The bare numbers of one exposure in one light: gap, ISO, spare, verdict.</summary>
/// <remarks>Worked out: ISO = base · 2^gap; spare = log2(limit / ISO) less lift and crop, plus what averaging gives. Spare and verdict use unrounded values; equal to a limit
/// within <see cref="Stops.Hair"/> is inside.</remarks>
/// <param name="Gap">Stops under at base ISO.</param>
/// <param name="Iso">The ISO that closes the gap.</param>
/// <param name="Effective">The ISO whose noise the darkest lifted part of the print shows: that ISO with lift, crop and averaging counted.</param>
/// <param name="SpareToClean">Stops to the clean limit, negative when past it; null when the limit is unknown.</param>
/// <param name="SpareToStretch">Stops to the stretch limit, negative when past it; null when the limit is unknown.</param>
/// <param name="Verdict">Where it lies.</param>
public sealed record GapAnswer(Stops Gap, Iso Iso, Iso Effective, Stops? SpareToClean, Stops? SpareToStretch, PlanVerdict Verdict)
{
    /// <summary>Closes the gap of a scene.</summary>
    public static GapAnswer Of(Scene scene) => Of(scene, scene.Aperture, scene.Shutter, LimitsAsked(scene), StopsUsed(scene));

    /// <summary>The limits for the print and the tone that are asked; null when none are known, or when those that are do not lead there.</summary>
    public static NoiseLimits? LimitsAsked(Scene scene) => scene.LimitsAsked?.Limits;

    /// <summary>Stops that lift and crop take from the spare, less those that averaging gives.</summary>
    public static Stops StopsUsed(Scene scene) =>
        -(LimitScaling.LiftStops(scene.Lift, scene.Limits?.Tags.Lift) + LimitScaling.CropStops(scene.WidthKept) + Motion.FrameAveraging.Gain(scene.FramesAveraged));

    internal static GapAnswer Of(Scene scene, FNumber aperture, ShutterTime shutter, NoiseLimits? limits, Stops used)
    {
        Stops gap = ExposureGap.Of(aperture, shutter, scene.Light, scene.BaseIso);
        Iso iso = ExposureGap.Closing(scene.BaseIso, gap);
        Iso effective = Iso.FromSpeed(iso.Speed * used.Ratio);
        Stops? toClean = limits?.Clean?.Above(effective), toStretch = limits?.Stretch?.Above(effective);
        return new GapAnswer(gap, iso, effective, toClean, toStretch, VerdictOf(toClean, toStretch));
    }

    private static PlanVerdict VerdictOf(Stops? toClean, Stops? toStretch) => (toClean, toStretch) switch
    {
        ({ } clean, _) when clean.Value >= -Stops.Hair => PlanVerdict.Clean,
        ({ }, { } stretch) => stretch.Value >= -Stops.Hair ? PlanVerdict.Stretch : PlanVerdict.Beyond,
        // With clean unknown, past stretch is still beyond.
        (null, { } stretch) when stretch.Value < -Stops.Hair => PlanVerdict.Beyond,
        _ => PlanVerdict.Unknown,
    };
}
