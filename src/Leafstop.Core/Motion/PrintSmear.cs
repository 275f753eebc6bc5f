using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>A smear as it shows on a print.</summary>
public sealed record PrintSmear
{
    /// <summary>Length on the sensor.</summary>
    public required Length OnSensor { get; init; }

    /// <summary>The print it is judged on; it tells the acuity and whether that was given.</summary>
    public required JudgedPrint Print { get; init; }

    /// <summary>Length on the print.</summary>
    public Length OnPrint => Length.FromMillimetres(OnSensor.Millimetres * Print.Enlargement);

    /// <summary>Length in circles of confusion: 1 is just not seen.</summary>
    public double CirclesOfConfusion => OnPrint.Millimetres / Print.AllowedOnPrint.Millimetres;

    /// <summary>True when it passes for still: at most one circle of confusion, equal within a hair.</summary>
    public bool Passes => CirclesOfConfusion <= 1 + Stops.Hair;

    /// <summary>The shutter that would have held what smeared like this at another: in proportion to time.</summary>
    /// <remarks>For motion that did not turn back in the frame; a swing that did smears less than in proportion, so a frame that long tells too little.</remarks>
    /// <param name="shotAt">Exposure of the frame that shows the smear.</param>
    public HoldingShutter ShutterThatHolds(ShutterTime shotAt) =>
        HoldingShutter.FromSeconds(CirclesOfConfusion > 0 ? shotAt.Seconds / CirclesOfConfusion : double.PositiveInfinity);

    /// <summary>"0.33 mm on the print, 1.9 circles of confusion at an acuity of 1′ (assumed)".</summary>
    public string ToDisplay() => string.Create(System.Globalization.CultureInfo.InvariantCulture,
        $"{OnPrint.Millimetres:0.00} mm on the print, {CirclesOfConfusion:0.0} circles of confusion at an acuity of {Print.Viewing.Acuity.ToDisplay()}{(Print.AcuityWasGiven ? "" : " (assumed)")}");
}
