using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>Leaves that shall be still on the print.</summary>
/// <param name="Subject">Lens and distance of the leaves.</param>
/// <param name="Peak">Their speed at the height of the swing.</param>
/// <param name="Format">The frame.</param>
/// <param name="How">How the speed is known.</param>
/// <param name="Acuity">The photographer's own; null for <see cref="JudgedPrint.AcuityWhenOmitted"/>.</param>
public sealed record LeavesWish(MovingSubject Subject, SpeedBand Peak, FrameFormat Format, HowKnown How, Angle? Acuity = null)
{
    /// <summary>What a lull leaves of the speed. A swinging leaf spends a third of its time under half its peak speed (derived, see <see cref="SwayingLeaf.TimeBelow"/>).</summary>
    public const double LullShare = 0.5;

    /// <summary>Smear on the print at the peak of the swing.</summary>
    public PrintSmear Smear(ShutterTime shutter, PrintCondition print, double widthKept) =>
        On(print, widthKept).Judge(Subject.Smear(Peak.Best, shutter));

    /// <summary>The longest shutter that holds them at the peak of the swing.</summary>
    public HoldingShutter Holding(PrintCondition print, double widthKept) => Holding(Peak.Best, print, widthKept);

    /// <summary>The longest shutter that holds them in a lull, at half the peak speed.</summary>
    public HoldingShutter HoldingInLull(PrintCondition print, double widthKept) =>
        Holding(Speed.FromMetresPerSecond(Peak.Best.MetresPerSecond * LullShare), print, widthKept);

    /// <summary>The longest shutter that holds a speed.</summary>
    public HoldingShutter Holding(Speed speed, PrintCondition print, double widthKept) =>
        Subject.LongestShutter(speed, On(print, widthKept).CircleOfConfusion);

    private JudgedPrint On(PrintCondition print, double widthKept) => JudgedPrint.Of(
        Format, Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), Acuity, widthKept);
}
