using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Optics;

/// <summary>How much blur passes for sharp, and where that comes from: a print that is looked at, or a circle of confusion that somebody decided on.</summary>
public sealed record PermittedBlur
{
    private PermittedBlur(Length circle, PrintedFrame? print) => (Circle, Print) = (circle, print);

    /// <summary>The circle of confusion: largest blur on the sensor that passes.</summary>
    public Length Circle { get; }

    /// <summary>The print it follows from; null when the circle was given.</summary>
    public PrintedFrame? Print { get; }

    /// <summary>Frequency on the sensor of the finest detail: one line pair in the width of the circle. That 5 line pairs per mm go with a disc of 0.2 mm is
    /// row DOF-23 [COC].</summary>
    public double LinePairsPerMillimetre => 1 / Circle.Millimetres;

    /// <summary>Takes a circle as given.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Zero.</exception>
    public static PermittedBlur OfCircle(Length circle) => new(Length.FromMillimetres(Lens.Circle(circle)), null);

    /// <summary>Takes the circle that a print asks for.</summary>
    public static PermittedBlur OfPrint(PrintedFrame print) => new(print.Viewing.CircleOfConfusion(print.Format, print.Crop), print);

    /// <summary>What a length on the sensor becomes on the print; null without a print.</summary>
    public Length? OnPrint(Length onSensor) => Print is null ? null : Print.Viewing.OnPrint(onSensor, Print.Format, Print.Crop);
}

/// <summary>A frame as it is printed.</summary>
/// <param name="Viewing">The print and who looks at it.</param>
/// <param name="Format">The frame as it is held.</param>
/// <param name="Crop">Share of the frame's width that is printed, above 0, at most 1.</param>
public sealed record PrintedFrame(ViewingCondition Viewing, FrameFormat Format, double Crop);
