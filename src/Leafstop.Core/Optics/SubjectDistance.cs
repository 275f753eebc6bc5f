using Leafstop.Core.Quantities;
using Leafstop.Core.Text;

namespace Leafstop.Core.Optics;

/// <summary>The distance of something in front of the camera: above zero, infinity included.</summary>
public sealed record SubjectDistance : IComparable<SubjectDistance>
{
    /// <summary>So far away that it makes no difference how far.</summary>
    public static readonly SubjectDistance Infinity = new(double.PositiveInfinity);

    private SubjectDistance(double millimetres) => Millimetres = millimetres;

    /// <summary>Millimetres; positive infinity for infinity.</summary>
    public double Millimetres { get; }

    /// <summary>Metres; positive infinity for infinity.</summary>
    public double Metres => Millimetres / 1000;

    /// <summary>True at infinity.</summary>
    public bool IsInfinite => double.IsPositiveInfinity(Millimetres);

    /// <summary>The length, or null at infinity.</summary>
    public Length? Finite => IsInfinite ? null : Length.FromMillimetres(Millimetres);

    /// <summary>Takes millimetres; positive infinity is allowed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public static SubjectDistance FromMillimetres(double millimetres) => millimetres > 0
        ? new SubjectDistance(millimetres)
        : throw new ArgumentOutOfRangeException(nameof(millimetres), millimetres, "A distance is above zero.");

    /// <summary>Takes metres; positive infinity is allowed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public static SubjectDistance FromMetres(double metres) => FromMillimetres(metres * 1000);

    /// <summary>Takes a length.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Zero.</exception>
    public static SubjectDistance Of(Length length) => FromMillimetres(length.Millimetres);

    /// <inheritdoc/>
    public int CompareTo(SubjectDistance? other) => other is null ? 1 : Millimetres.CompareTo(other.Millimetres);

    /// <summary>Millimetres in full, "5000 mm", or "inf": reads back to the same value in any culture.</summary>
    public override string ToString() => IsInfinite ? "inf" : $"{Written.RoundTrip(Millimetres)} mm";

    /// <summary>To three figures, "3.4 m", below one metre "60 cm", or "infinity".</summary>
    public string ToDisplay() => Finite is not { } length ? "infinity" : length.Metres < 1 ? length.ToDisplay() : $"{Written.Short(length.Metres)} m";

    /// <summary>Reads a length with its unit, or "inf", "infinity", "∞".</summary>
    /// <exception cref="FormatException">Not a distance; the message says why.</exception>
    public static SubjectDistance Parse(string text) =>
        TryParse(text, out SubjectDistance? distance, out string why) ? distance! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out SubjectDistance? distance, out string why)
    {
        distance = null;
        string trimmed = (text ?? "").Trim();
        if (trimmed is "∞" || trimmed.Equals("inf", StringComparison.OrdinalIgnoreCase) || trimmed.Equals("infinity", StringComparison.OrdinalIgnoreCase))
        {
            (distance, why) = (Infinity, "");
            return true;
        }
        if (!Length.TryParse(trimmed, out Length length, out why))
            return false;
        if (length.Millimetres <= 0)
        {
            why = $"'{trimmed}' is not above zero: write a distance such as 5m, or inf.";
            return false;
        }
        distance = Of(length);
        return true;
    }

    /// <summary>Orders nearest first.</summary>
    public static bool operator <(SubjectDistance left, SubjectDistance right) => left.Millimetres < right.Millimetres;

    /// <summary>Orders nearest first.</summary>
    public static bool operator >(SubjectDistance left, SubjectDistance right) => left.Millimetres > right.Millimetres;

    /// <summary>Orders nearest first.</summary>
    public static bool operator <=(SubjectDistance left, SubjectDistance right) => left.Millimetres <= right.Millimetres;

    /// <summary>Orders nearest first.</summary>
    public static bool operator >=(SubjectDistance left, SubjectDistance right) => left.Millimetres >= right.Millimetres;
}
