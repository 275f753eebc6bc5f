using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>A print, how far away it is looked at, and how fine the eye sees.</summary>
/// <remarks>Nothing here has a default: how sharp is sharp enough is a property of the print and of who looks at it, never of a lens. The one rule of
/// the eye is that detail finer than the acuity is not told apart. An acuity of 1′ is the usual figure for good eyes and high contrast
/// (common practice, no source); leaves against leaves forgive more.</remarks>
public sealed record ViewingCondition
{
    /// <summary>The coarsest acuity that is taken for one: a degree.</summary>
    public static readonly Angle CoarsestAcuity = Angle.FromDegrees(1);

    private ViewingCondition(Length printWidth, Length distance, Angle acuity) => (PrintWidth, Distance, Acuity) = (printWidth, distance, acuity);

    /// <summary>Width of the print.</summary>
    public Length PrintWidth { get; }

    /// <summary>Distance from the eye to the print.</summary>
    public Length Distance { get; }

    /// <summary>The smallest angle that the eye tells apart.</summary>
    public Angle Acuity { get; }

    /// <summary>The finest detail told apart on the print: distance · 2 tan(acuity / 2). 1.43′ at 60 cm is 0.25 mm, 1′ is 0.1745 mm.</summary>
    public Length FinestDetail => Length.FromMillimetres(Distance.Millimetres * 2 * Math.Tan(Acuity.Radians / 2));

    /// <summary>Takes a print, a distance and an acuity.</summary>
    /// <param name="printWidth">Above zero.</param>
    /// <param name="distance">Above zero.</param>
    /// <param name="acuity">Above zero, at most a degree.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is out of range.</exception>
    public static ViewingCondition Of(Length printWidth, Length distance, Angle acuity)
    {
        if (printWidth.Millimetres <= 0)
            throw new ArgumentOutOfRangeException(nameof(printWidth), printWidth.Millimetres, "The width of a print is above zero.");
        if (distance.Millimetres <= 0)
            throw new ArgumentOutOfRangeException(nameof(distance), distance.Millimetres, "The distance to a print is above zero.");
        if (acuity.Radians <= 0 || acuity > CoarsestAcuity)
            throw new ArgumentOutOfRangeException(nameof(acuity), acuity.Arcminutes, "An acuity is above zero and at most a degree.");
        return new ViewingCondition(printWidth, distance, acuity);
    }

    /// <summary>How many times larger the print is than the part of the sensor it shows.</summary>
    /// <param name="format">The frame as it is held.</param>
    /// <param name="crop">Share of the frame's width that is printed, above 0, at most 1 for the whole frame.</param>
    /// <exception cref="ArgumentOutOfRangeException">The crop is not a share.</exception>
    public double Enlargement(FrameFormat format, double crop = 1) =>
        PrintWidth.Millimetres / (format.Width.Millimetres * Share(crop));

    /// <summary>The circle of confusion: the largest blur on the sensor that is not told from a point on the print.</summary>
    /// <param name="format">The frame as it is held.</param>
    /// <param name="crop">Share of the frame's width that is printed, above 0, at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The crop is not a share.</exception>
    public Length CircleOfConfusion(FrameFormat format, double crop = 1) => OnSensor(FinestDetail, format, crop);

    /// <summary>The length on the sensor that a length on the print comes from.</summary>
    public Length OnSensor(Length onPrint, FrameFormat format, double crop = 1) => Length.FromMillimetres(onPrint.Millimetres / Enlargement(format, crop));

    /// <summary>The length on the print that a length on the sensor becomes.</summary>
    public Length OnPrint(Length onSensor, FrameFormat format, double crop = 1) => Length.FromMillimetres(onSensor.Millimetres * Enlargement(format, crop));

    /// <summary>Pixels of the picture per centimetre of print.</summary>
    /// <param name="pixelsAcross">Pixels across the width of the print, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double PixelsPerCentimetre(int pixelsAcross) => Positive(pixelsAcross) / PrintWidth.Centimetres;

    /// <summary>Pixels of the picture in a degree of the eye's view; half of it is the highest frequency they carry, in cycles per degree.</summary>
    /// <remarks>PRN-01: 6000 pixels on 60 cm from 60 cm give 104.72, 52.36 cycles per degree.</remarks>
    /// <param name="pixelsAcross">Pixels across the width of the print, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double PixelsPerDegree(int pixelsAcross) =>
        Positive(pixelsAcross) / PrintWidth.Millimetres * Distance.Millimetres * 2 * Math.Tan(Math.PI / 360);

    /// <summary>How many pixels of the picture the eye merges into its finest detail, at least one.</summary>
    /// <remarks>Independent pixels averaged are light added (PRN-03): 4 merged pixels look like 2 stops more light, log2 of the count. It is not so for
    /// raws that were smoothed.</remarks>
    /// <param name="pixelsAcross">Pixels across the width of the print, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double PixelsMerged(int pixelsAcross)
    {
        double across = Positive(pixelsAcross) / PrintWidth.Millimetres * FinestDetail.Millimetres;
        return Math.Max(1, across * across);
    }

    private static double Share(double crop) => crop is > 0 and <= 1
        ? crop
        : throw new ArgumentOutOfRangeException(nameof(crop), crop, "A crop is the share of the width that is kept: above 0, at most 1.");

    private static int Positive(int pixelsAcross) => pixelsAcross > 0
        ? pixelsAcross
        : throw new ArgumentOutOfRangeException(nameof(pixelsAcross), pixelsAcross, "A picture has pixels.");
}
