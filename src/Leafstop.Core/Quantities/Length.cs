using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>A length, zero or more, kept in millimetres. The default is none.</summary>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>Millimetres in an inch. Exact by definition since 1959 (common practice, no source).</summary>
    public const double MillimetresPerInch = 25.4;

    private Length(double millimetres) => Millimetres = millimetres;

    /// <summary>Millimetres.</summary>
    public double Millimetres { get; }

    /// <summary>Centimetres.</summary>
    public double Centimetres => Millimetres / 10;

    /// <summary>Metres.</summary>
    public double Metres => Millimetres / 1000;

    /// <summary>Takes millimetres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Length FromMillimetres(double millimetres) => double.IsFinite(millimetres) && millimetres >= 0
        ? new Length(millimetres)
        : throw new ArgumentOutOfRangeException(nameof(millimetres), millimetres, "A length is finite and not below zero.");

    /// <summary>Takes centimetres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Length FromCentimetres(double centimetres) => FromMillimetres(centimetres * 10);

    /// <summary>Takes metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Length FromMetres(double metres) => FromMillimetres(metres * 1000);

    /// <summary>Takes inches.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Length FromInches(double inches) => FromMillimetres(inches * MillimetresPerInch);

    /// <inheritdoc/>
    public int CompareTo(Length other) => Millimetres.CompareTo(other.Millimetres);

    /// <summary>Millimetres in full, "609.6 mm": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(Millimetres)} mm";

    /// <summary>In the unit that suits the size, to three figures: "4.36 mm", "60 cm", "3.4 m".</summary>
    public string ToDisplay() => Millimetres switch
    {
        < 10 => $"{Written.Short(Millimetres)} mm",
        < 2000 => $"{Written.Short(Centimetres)} cm",
        _ => $"{Written.Short(Metres)} m",
    };

    /// <summary>Reads a number with its unit: "60cm", "0.6 m", "600mm", "24in", "3.5 ft", "3 1/2 ft".</summary>
    /// <exception cref="FormatException">Not a length, or without a unit; the message says why.</exception>
    public static Length Parse(string text) => TryParse(text, out Length length, out string why) ? length : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Length length, out string why)
    {
        bool isRead = MeasuredText.TryRead(text, Units, "a length such as 60cm or 24in", "a length", "mm, cm, m, in or ft", mayBeNegative: false,
            out double millimetres, out why);
        length = new Length(millimetres);
        return isRead;
    }

    // Longer names first, so that "mm" is not read as "m".
    private static readonly (string Unit, double Millimetres)[] Units =
    [
        ("inches", MillimetresPerInch), ("inch", MillimetresPerInch), ("in", MillimetresPerInch), ("\"", MillimetresPerInch),
        ("feet", 12 * MillimetresPerInch), ("foot", 12 * MillimetresPerInch), ("ft", 12 * MillimetresPerInch), ("'", 12 * MillimetresPerInch),
        ("mm", 1), ("cm", 10), ("m", 1000),
    ];

    /// <summary>Orders by size.</summary>
    public static bool operator <(Length left, Length right) => left.Millimetres < right.Millimetres;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Length left, Length right) => left.Millimetres > right.Millimetres;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Length left, Length right) => left.Millimetres <= right.Millimetres;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Length left, Length right) => left.Millimetres >= right.Millimetres;
}
