using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>What must be sharp, from near to far.</summary>
/// <param name="Demand">Lens, near and far.</param>
/// <param name="Format">The frame.</param>
/// <param name="Acuity">The photographer's own; null for <see cref="AcuityWhenOmitted"/>.</param>
public sealed record DepthWish(DepthDemand Demand, FrameFormat Format, Angle? Acuity = null)
{
    /// <summary>The acuity for depth when none is given: 1.43′, 0.25 mm on a print at 60 cm. An answer that used it says so.</summary>
    public static readonly Angle AcuityWhenOmitted = Angle.FromArcminutes(1.43);

    /// <summary>Share of each focus step that the next one holds too: common practice, no source.</summary>
    public const double Overlap = 0.3;

    /// <summary>More steps than this are no plan in a wood.</summary>
    public const int MostSteps = 30;

    /// <summary>The largest blur on the print that is not seen.</summary>
    public Length AllowedOnPrint(PrintCondition print) => On(print).FinestDetail;

    /// <summary>Blur on the print at the near and far end, by geometry (DOF-17).</summary>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="print">The print.</param>
    /// <param name="widthKept">Share of the frame's width that is printed.</param>
    public Length BlurOnPrint(FNumber aperture, PrintCondition print, double widthKept) =>
        On(print).OnPrint(Demand.BlurAtLimits(aperture), Format, widthKept);

    /// <summary>True when that blur is not seen; equal within a hair is not seen.</summary>
    public bool Holds(FNumber aperture, PrintCondition print, double widthKept) =>
        BlurOnPrint(aperture, print, widthKept).Millimetres <= AllowedOnPrint(print).Millimetres * (1 + Stops.Hair);

    /// <summary>What an aperture holds when it is focused for the demand: from where to where blur is not seen on the print.</summary>
    public DepthOfField Held(FNumber aperture, PrintCondition print, double widthKept) =>
        DepthOfField.Of(Demand.Lens, aperture, Demand.Focus, On(print).CircleOfConfusion(Format, widthKept));

    /// <summary>The widest aperture that holds it, literal.</summary>
    public FNumber Widest(PrintCondition print, double widthKept) =>
        Demand.WidestAperture(On(print).CircleOfConfusion(Format, widthKept));

    /// <summary>Focus steps that hold it at an aperture, each overlapping the next by three tenths; null when they are too many to be a plan.</summary>
    public int? Steps(FNumber aperture, PrintCondition print, double widthKept)
    {
        Length circle = On(print).CircleOfConfusion(Format, widthKept);
        try
        {
            int count = FocusSteps.Plan(Demand, aperture, circle, Overlap).Frames.Length;
            return count <= MostSteps ? count : null;
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }
    }

    private ViewingCondition On(PrintCondition print) => ViewingCondition.Of(
        Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), Acuity ?? AcuityWhenOmitted);
}
