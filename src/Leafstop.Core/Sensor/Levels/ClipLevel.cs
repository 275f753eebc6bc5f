namespace Leafstop.Core.Sensor;

/// <summary>Where a plane clips.</summary>
/// <param name="Dn">Clip level, DN, black included.</param>
/// <param name="Origin">What tells it.</param>
internal sealed record ClipLevel(double Dn, ClipOrigin Origin)
{
    private const double SameCode = 0.002;

    /// <summary>True when samples piled up, at this level or at others of the body.</summary>
    public bool IsSeen => Origin != ClipOrigin.Tag;

    /// <summary>The pile seen at this level, else the one code at which other levels pile up, else the tag; null when there is none.</summary>
    public static ClipLevel? Of(LevelShots level, int plane, IReadOnlyList<LevelShots> all)
    {
        if (Seen(level, plane) is { } own) return new(own, ClipOrigin.Samples);
        double[] others = [.. all.Select(l => Seen(l, plane)).OfType<double>()];
        if (others.Length > 0 && others.Max() - others.Min() <= SameCode * others.Max()) return new(Median.Of(others), ClipOrigin.OtherLevels);
        return level.Frames[0].Header.WhiteTagDn is { } tag ? new(tag, ClipOrigin.Tag) : null;
    }

    /// <summary>The code at which the lit frames of a level pile up; null when none does.</summary>
    public static double? Seen(LevelShots level, int plane)
    {
        double[] seen = [.. level.Frames.Where(f => f.Planes[plane].ClipDn is not null).Select(f => (double)f.Planes[plane].ClipDn!.Value)];
        return seen.Length == 0 ? null : Median.Of(seen);
    }
}

/// <summary>What tells a clip level.</summary>
internal enum ClipOrigin
{
    /// <summary>Samples of the level itself.</summary>
    Samples,

    /// <summary>Samples of other levels, all at one code.</summary>
    OtherLevels,

    /// <summary>The file's tag alone.</summary>
    Tag,
}
