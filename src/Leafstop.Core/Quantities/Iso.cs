namespace Leafstop.Core.Quantities;

/// <summary>An ISO speed: the arithmetic exposure index that a camera is set to.</summary>
/// <remarks>Above zero and finite. A dialled mark such as 500 and the exact power 100 · 2^(7/3) = 503.97 are different
/// values; <see cref="FromSpeed"/> keeps the number it is given.</remarks>
public sealed record Iso : IComparable<Iso>
{
    private Iso(double speed) => Speed = speed;

    /// <summary>The arithmetic speed, for instance 100 or 503.97.</summary>
    public double Speed { get; }

    /// <summary>Takes the number as it is written.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The speed is not finite or not above zero.</exception>
    public static Iso FromSpeed(double speed) => double.IsFinite(speed) && speed > 0
        ? new Iso(speed)
        : throw new ArgumentOutOfRangeException(nameof(speed), speed, "An ISO speed is finite and above zero.");

    /// <inheritdoc/>
    public int CompareTo(Iso? other) => other is null ? 1 : Speed.CompareTo(other.Speed);

    /// <summary>Orders by speed.</summary>
    public static bool operator <(Iso left, Iso right) => left.Speed < right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator >(Iso left, Iso right) => left.Speed > right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator <=(Iso left, Iso right) => left.Speed <= right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator >=(Iso left, Iso right) => left.Speed >= right.Speed;
}
