using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Motion;

/// <summary>The print on which a smear is judged: the frame it comes from, its size and distance, and the acuity, given or assumed.</summary>
public sealed record JudgedPrint
{
    /// <summary>The acuity for smear when none is given: 1′, 0.1745 mm on a print at 60 cm, good eyes and high contrast. Leaves against leaves forgive about
    /// 1.5 times as much (rule of thumb). An answer that used it says so.</summary>
    public static readonly Angle AcuityWhenOmitted = Angle.FromArcminutes(1);

    private JudgedPrint(ViewingCondition viewing, FrameFormat format, double crop, bool acuityWasGiven) =>
        (Viewing, Format, Crop, AcuityWasGiven) = (viewing, format, crop, acuityWasGiven);

    /// <summary>Print width, distance and acuity.</summary>
    public ViewingCondition Viewing { get; }

    /// <summary>The frame.</summary>
    public FrameFormat Format { get; }

    /// <summary>Share of the frame's width that is printed.</summary>
    public double Crop { get; }

    /// <summary>False when <see cref="AcuityWhenOmitted"/> was used because none was given.</summary>
    public bool AcuityWasGiven { get; }

    /// <summary>How many times larger the print is than the part of the sensor it shows.</summary>
    public double Enlargement => Viewing.Enlargement(Format, Crop);

    /// <summary>Largest smear on the print that passes for still.</summary>
    public Length AllowedOnPrint => Viewing.FinestDetail;

    /// <summary>The same on the sensor.</summary>
    public Length CircleOfConfusion => Viewing.CircleOfConfusion(Format, Crop);

    /// <summary>Takes a print.</summary>
    /// <param name="format">The frame as it is held.</param>
    /// <param name="printWidth">Above zero.</param>
    /// <param name="distance">From the eye to the print, above zero.</param>
    /// <param name="acuity">The photographer's own; null for <see cref="AcuityWhenOmitted"/>.</param>
    /// <param name="crop">Share of the frame's width that is printed, above 0, at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is out of range.</exception>
    public static JudgedPrint Of(FrameFormat format, Length printWidth, Length distance, Angle? acuity = null, double crop = 1)
    {
        var viewing = ViewingCondition.Of(printWidth, distance, acuity ?? AcuityWhenOmitted);
        _ = viewing.Enlargement(format, crop);
        return new JudgedPrint(viewing, format, crop, acuity is not null);
    }

    /// <summary>Judges a smear on the sensor.</summary>
    public PrintSmear Judge(Length onSensor) => new() { OnSensor = onSensor, Print = this };
}
