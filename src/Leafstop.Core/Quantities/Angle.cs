using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>An angle of either sign, kept in radians. The default is none.</summary>
/// <remarks>An angle that goes round more than once is kept as it is; nothing is folded into one turn.</remarks>
public readonly record struct Angle : IComparable<Angle>
{
    private const double RadiansPerDegree = Math.PI / 180;
    private const double RadiansPerArcminute = Math.PI / (180 * 60);
    private const double RadiansPerArcsecond = Math.PI / (180 * 3600);

    private Angle(double radians) => Radians = radians;

    /// <summary>Radians.</summary>
    public double Radians { get; }

    /// <summary>Degrees: 180 to half a turn.</summary>
    public double Degrees => Radians / RadiansPerDegree;

    /// <summary>Minutes of arc: 60 to a degree.</summary>
    public double Arcminutes => Radians / RadiansPerArcminute;

    /// <summary>Takes radians.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Angle FromRadians(double radians) => double.IsFinite(radians)
        ? new Angle(radians)
        : throw new ArgumentOutOfRangeException(nameof(radians), radians, "An angle is finite.");

    /// <summary>Takes degrees.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Angle FromDegrees(double degrees) => FromRadians(degrees * RadiansPerDegree);

    /// <summary>Takes minutes of arc.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Angle FromArcminutes(double arcminutes) => FromRadians(arcminutes * RadiansPerArcminute);

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Radians.CompareTo(other.Radians);

    /// <summary>Radians in full, "0.25 rad": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(Radians)} rad";

    /// <summary>To three figures in minutes of arc below one degree, "1.43′", else in degrees, "10.5°". The minus is U+2212.</summary>
    public string ToDisplay()
    {
        string size = Math.Abs(Degrees) < 1 - 1e-12 ? $"{Written.Short(Math.Abs(Arcminutes))}\u2032" : $"{Written.Short(Math.Abs(Degrees))}°";
        return Radians < 0 ? $"\u2212{size}" : size;
    }

    /// <summary>Reads a number with its unit: "1.43'", "1.43′", "1.43arcmin", "10deg", "10°", "-0.833 degrees", "20arcsec", "0.1 rad".</summary>
    /// <exception cref="FormatException">Not an angle, or without a unit; the message says why.</exception>
    public static Angle Parse(string text) => TryParse(text, out Angle angle, out string why) ? angle : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Angle angle, out string why)
    {
        bool isRead = MeasuredText.TryRead(text, Units, "an angle such as 1.43' or 10deg", "an angle", "°, deg, ', arcmin, arcsec or rad", mayBeNegative: true,
            out double radians, out why);
        angle = new Angle(radians);
        return isRead;
    }

    private static readonly (string Unit, double Radians)[] Units =
    [
        ("arcminutes", RadiansPerArcminute), ("arcminute", RadiansPerArcminute), ("arcmin", RadiansPerArcminute),
        ("'", RadiansPerArcminute), ("\u2032", RadiansPerArcminute), ("\u2019", RadiansPerArcminute),
        ("arcseconds", RadiansPerArcsecond), ("arcsecond", RadiansPerArcsecond), ("arcsec", RadiansPerArcsecond),
        ("degrees", RadiansPerDegree), ("degree", RadiansPerDegree), ("deg", RadiansPerDegree), ("°", RadiansPerDegree),
        ("radians", 1), ("radian", 1), ("rad", 1),
    ];

    /// <summary>The sum.</summary>
    public static Angle operator +(Angle left, Angle right) => FromRadians(left.Radians + right.Radians);

    /// <summary>The difference.</summary>
    public static Angle operator -(Angle left, Angle right) => FromRadians(left.Radians - right.Radians);

    /// <summary>As large the other way.</summary>
    public static Angle operator -(Angle angle) => new(-angle.Radians);

    /// <summary>Orders by size, negative first.</summary>
    public static bool operator <(Angle left, Angle right) => left.Radians < right.Radians;

    /// <summary>Orders by size, negative first.</summary>
    public static bool operator >(Angle left, Angle right) => left.Radians > right.Radians;

    /// <summary>Orders by size, negative first.</summary>
    public static bool operator <=(Angle left, Angle right) => left.Radians <= right.Radians;

    /// <summary>Orders by size, negative first.</summary>
    public static bool operator >=(Angle left, Angle right) => left.Radians >= right.Radians;
}
