using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>A speed without a direction, zero or more, kept in metres per second. The default is rest.</summary>
public readonly record struct Speed : IComparable<Speed>
{
    private Speed(double metresPerSecond) => MetresPerSecond = metresPerSecond;

    /// <summary>Metres in an international mile. Exact by definition (common practice, no source).</summary>
    public const double MetresPerMile = 1609.344;

    /// <summary>Metres in a nautical mile; a knot is one an hour. Exact by definition (common practice, no source).</summary>
    public const double MetresPerNauticalMile = 1852;

    /// <summary>Metres per second.</summary>
    public double MetresPerSecond { get; }

    /// <summary>Kilometres per hour.</summary>
    public double KilometresPerHour => MetresPerSecond * 3.6;

    /// <summary>Miles per hour.</summary>
    public double MilesPerHour => MetresPerSecond * 3600 / MetresPerMile;

    /// <summary>Knots: nautical miles per hour.</summary>
    public double Knots => MetresPerSecond * 3600 / MetresPerNauticalMile;

    /// <summary>Takes metres per second.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Speed FromMetresPerSecond(double metresPerSecond) => double.IsFinite(metresPerSecond) && metresPerSecond >= 0
        ? new Speed(metresPerSecond)
        : throw new ArgumentOutOfRangeException(nameof(metresPerSecond), metresPerSecond, "A speed is finite and not below zero.");

    /// <summary>Takes kilometres per hour.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Speed FromKilometresPerHour(double kilometresPerHour) => FromMetresPerSecond(kilometresPerHour / 3.6);

    /// <inheritdoc/>
    public int CompareTo(Speed other) => MetresPerSecond.CompareTo(other.MetresPerSecond);

    /// <summary>Metres per second in full, "0.25 m/s": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(MetresPerSecond)} m/s";

    /// <summary>To three figures, "25 cm/s" below half a metre per second, else "3 m/s".</summary>
    public string ToDisplay() => MetresPerSecond is > 0 and < 0.5
        ? $"{Written.Short(MetresPerSecond * 100)} cm/s"
        : $"{Written.Short(MetresPerSecond)} m/s";

    /// <summary>Reads a number with its unit: "3m/s", "25 cm/s", "12km/h", "7 mph", "6kn", "10 ft/s".</summary>
    /// <exception cref="FormatException">Not a speed, or without a unit; the message says why.</exception>
    public static Speed Parse(string text) => TryParse(text, out Speed speed, out string why) ? speed : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Speed speed, out string why)
    {
        bool isRead = MeasuredText.TryRead(text, Units, "a speed such as 3m/s or 12km/h", "a speed", "m/s, cm/s, km/h, mph, kn or ft/s", mayBeNegative: false,
            out double metresPerSecond, out why);
        speed = new Speed(metresPerSecond);
        return isRead;
    }

    // Longer names first, so that "cm/s" is not read as "m/s".
    private static readonly (string Unit, double MetresPerSecond)[] Units =
    [
        ("knots", MetresPerNauticalMile / 3600), ("knot", MetresPerNauticalMile / 3600), ("kn", MetresPerNauticalMile / 3600), ("kt", MetresPerNauticalMile / 3600),
        ("mph", MetresPerMile / 3600), ("km/h", 1 / 3.6), ("kph", 1 / 3.6),
        ("ft/s", 12 * Length.MillimetresPerInch / 1000), ("mm/s", 0.001), ("cm/s", 0.01), ("m/s", 1),
    ];

    /// <summary>Orders by size.</summary>
    public static bool operator <(Speed left, Speed right) => left.MetresPerSecond < right.MetresPerSecond;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Speed left, Speed right) => left.MetresPerSecond > right.MetresPerSecond;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Speed left, Speed right) => left.MetresPerSecond <= right.MetresPerSecond;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Speed left, Speed right) => left.MetresPerSecond >= right.MetresPerSecond;
}
