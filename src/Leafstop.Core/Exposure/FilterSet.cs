using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>Filters one behind the other: their stops add up.</summary>
/// <param name="Filters">In the order they were named.</param>
public sealed record FilterSet(ImmutableArray<Filter> Filters)
{
    /// <summary>No filter.</summary>
    public static readonly FilterSet None = new([]);

    /// <summary>Light that all of them take together.</summary>
    public Stops Total => Stops.Of(Filters.Sum(f => f.Stops.Value));

    /// <summary>True when there is none.</summary>
    public bool IsEmpty => Filters.IsEmpty;

    /// <summary>The first of a kind; null when there is none.</summary>
    public Filter? First(FilterKind kind) => Filters.FirstOrDefault(f => f.Kind == kind);

    /// <summary>The set with one of its filters taken off.</summary>
    public FilterSet Without(Filter filter) => new(Filters.Remove(filter));

    /// <summary>The exposure time that lets the same light through with these filters fitted: t · 2^stops. Source: EXP-48.</summary>
    public ShutterTime Lengthen(ShutterTime without) => ShutterTime.FromSeconds(without.Seconds * Total.Ratio);

    /// <summary>Equal filters in equal order.</summary>
    public bool Equals(FilterSet? other) => other is not null && Filters.SequenceEqual(other.Filters);

    /// <inheritdoc/>
    public override int GetHashCode() => Filters.Aggregate(17, HashCode.Combine);

    /// <summary>Reads one filter or several, parted by commas or plus signs: "polariser 1.5 + nd8". "none" is no filter.</summary>
    public static bool TryParse(string? text, out FilterSet filters, out string why)
    {
        filters = None;
        why = "";
        if (string.Equals(text?.Trim(), "none", StringComparison.OrdinalIgnoreCase))
            return true;
        ImmutableArray<Filter>.Builder all = ImmutableArray.CreateBuilder<Filter>();
        foreach (string part in (text ?? "").Split([',', '+', ';']))
        {
            if (!Filter.TryParse(part, out Filter? filter, out why))
                return false;
            all.Add(filter!);
        }
        filters = new FilterSet(all.ToImmutable());
        return true;
    }
}
