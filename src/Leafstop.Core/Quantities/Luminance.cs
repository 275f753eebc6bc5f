using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>Light leaving a surface towards the eye or the meter, zero or more, kept in candelas per square metre. The default is darkness.</summary>
public readonly record struct Luminance : IComparable<Luminance>
{
    private Luminance(double candelasPerSquareMetre) => CandelasPerSquareMetre = candelasPerSquareMetre;

    /// <summary>Candelas per square metre.</summary>
    public double CandelasPerSquareMetre { get; }

    /// <summary>Takes candelas per square metre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Luminance FromCandelasPerSquareMetre(double candelasPerSquareMetre) => double.IsFinite(candelasPerSquareMetre) && candelasPerSquareMetre >= 0
        ? new Luminance(candelasPerSquareMetre)
        : throw new ArgumentOutOfRangeException(nameof(candelasPerSquareMetre), candelasPerSquareMetre, "A luminance is finite and not below zero.");

    /// <inheritdoc/>
    public int CompareTo(Luminance other) => CandelasPerSquareMetre.CompareTo(other.CandelasPerSquareMetre);

    /// <summary>Candelas per square metre in full, "0.25 cd/m²": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(CandelasPerSquareMetre)} cd/m²";

    /// <summary>To three figures, "120 cd/m²".</summary>
    public string ToDisplay() => $"{Written.Short(CandelasPerSquareMetre)} cd/m²";

    /// <summary>Reads a number with its unit: "120cd/m²", "120 cd/m2", "120 nits".</summary>
    /// <exception cref="FormatException">Not a luminance, or without a unit; the message says why.</exception>
    public static Luminance Parse(string text) => TryParse(text, out Luminance luminance, out string why) ? luminance : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Luminance luminance, out string why)
    {
        bool isRead = MeasuredText.TryRead(text, Units, "a luminance such as 120cd/m²", "a luminance", "cd/m² or cd/m2", mayBeNegative: false,
            out double candelasPerSquareMetre, out why);
        luminance = new Luminance(candelasPerSquareMetre);
        return isRead;
    }

    private static readonly (string Unit, double CandelasPerSquareMetre)[] Units = [("cd/m²", 1), ("cd/m2", 1), ("nits", 1), ("nit", 1)];

    /// <summary>Orders by size.</summary>
    public static bool operator <(Luminance left, Luminance right) => left.CandelasPerSquareMetre < right.CandelasPerSquareMetre;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Luminance left, Luminance right) => left.CandelasPerSquareMetre > right.CandelasPerSquareMetre;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Luminance left, Luminance right) => left.CandelasPerSquareMetre <= right.CandelasPerSquareMetre;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Luminance left, Luminance right) => left.CandelasPerSquareMetre >= right.CandelasPerSquareMetre;
}
