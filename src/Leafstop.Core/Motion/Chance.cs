using Leafstop.Core.Sensor;

namespace Leafstop.Core.Motion;

/// <summary>A probability, 0 to 1. The default is none.</summary>
public readonly record struct Chance : IComparable<Chance>
{
    private Chance(double share) => Share = share;

    /// <summary>How sure a photographer who plans frames usually wants to be: 95 %. A convention, not a law.</summary>
    public static Chance UsuallySure { get; } = new(0.95);

    /// <summary>The probability, 0 to 1.</summary>
    public double Share { get; }

    /// <summary>The probability that it does not happen.</summary>
    public Chance Not => new(1 - Share);

    /// <summary>Takes a probability.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 0 to 1.</exception>
    public static Chance Of(double share) => share is >= 0 and <= 1
        ? new Chance(share)
        : throw new ArgumentOutOfRangeException(nameof(share), share, "A chance is from 0 to 1.");

    /// <inheritdoc/>
    public int CompareTo(Chance other) => Share.CompareTo(other.Share);

    /// <summary>In per cent: "26 %", "6.8 %".</summary>
    public string ToDisplay() => Say.Percent(Share);

    /// <summary>Orders by size.</summary>
    public static bool operator <(Chance left, Chance right) => left.Share < right.Share;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Chance left, Chance right) => left.Share > right.Share;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Chance left, Chance right) => left.Share <= right.Share;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Chance left, Chance right) => left.Share >= right.Share;
}
