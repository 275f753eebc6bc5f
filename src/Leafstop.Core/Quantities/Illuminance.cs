using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>Light arriving on a surface, zero or more, kept in lux. The default is darkness.</summary>
public readonly record struct Illuminance : IComparable<Illuminance>
{
    private Illuminance(double lux) => Lux = lux;

    /// <summary>Lux: lumens per square metre.</summary>
    public double Lux { get; }

    /// <summary>Takes lux.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Illuminance FromLux(double lux) => double.IsFinite(lux) && lux >= 0
        ? new Illuminance(lux)
        : throw new ArgumentOutOfRangeException(nameof(lux), lux, "An illuminance is finite and not below zero.");

    /// <inheritdoc/>
    public int CompareTo(Illuminance other) => Lux.CompareTo(other.Lux);

    /// <summary>Lux in full, "0.25 lx": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(Lux)} lx";

    /// <summary>To three figures, "512 lx".</summary>
    public string ToDisplay() => $"{Written.Short(Lux)} lx";

    /// <summary>Reads a number with its unit: "500lx", "500 lux", "12 klx".</summary>
    /// <exception cref="FormatException">Not an illuminance, or without a unit; the message says why.</exception>
    public static Illuminance Parse(string text) => TryParse(text, out Illuminance illuminance, out string why) ? illuminance : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Illuminance illuminance, out string why)
    {
        bool isRead = MeasuredText.TryRead(text, Units, "an illuminance such as 500lx", "an illuminance", "lx, lux or klx", mayBeNegative: false,
            out double lux, out why);
        illuminance = new Illuminance(lux);
        return isRead;
    }

    // Longer names first, so that "klx" is not read as "lx".
    private static readonly (string Unit, double Lux)[] Units = [("klux", 1000), ("klx", 1000), ("lux", 1), ("lx", 1)];

    /// <summary>Orders by size.</summary>
    public static bool operator <(Illuminance left, Illuminance right) => left.Lux < right.Lux;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Illuminance left, Illuminance right) => left.Lux > right.Lux;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Illuminance left, Illuminance right) => left.Lux <= right.Lux;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Illuminance left, Illuminance right) => left.Lux >= right.Lux;
}
