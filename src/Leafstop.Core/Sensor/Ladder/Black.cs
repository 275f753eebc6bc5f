namespace Leafstop.Core.Sensor;

/// <summary>Black levels, best source first.</summary>
internal static class Black
{
    /// <summary>Black of one plane of a level: the mean of its cap frames, else the best that the frames themselves give.</summary>
    /// <remarks>Where rows stray from frame to frame the masked border of the lit frames, which strays with them, may know their black better than any cap frame.</remarks>
    public static (double Dn, BlackSource Source, double ErrorDn) OfPlane(LevelShots level, int plane)
    {
        BlackSource source = level.Frames.Max(f => f.Planes[plane].BlackSource);
        double own = level.Frames.Average(f => f.Planes[plane].BlackDn), ownError = level.Frames.Max(f => f.Planes[plane].BlackErrorDn) ?? 0;
        if (level.Caps.Length == 0) return (own, source, ownError);
        double capError = level.Caps.Max(c => c.Planes[plane].BlackErrorDn) ?? 0;
        return source == BlackSource.MaskedPixels && ownError < capError
            ? (own, source, ownError)
            : (level.Caps.Average(c => c.Planes[plane].BlackDn), BlackSource.CapFrames, capError);
    }

    /// <summary>Black of a frame's brightness map, which holds the green (or only) samples.</summary>
    public static double OfMap(FrameSurvey frame, IReadOnlyCollection<FrameSurvey> caps)
    {
        int[] green = GreenPlanes(frame);
        return caps.Count > 0
            ? caps.Average(c => green.Average(p => c.Planes[p].BlackDn))
            : green.Average(p => frame.Planes[p].BlackDn);
    }

    /// <summary>Indices of the planes that the map was made of.</summary>
    public static int[] GreenPlanes(FrameSurvey frame)
    {
        int[] green = [.. Enumerable.Range(0, frame.Planes.Length).Where(i => frame.Planes[i].Plane.StartsWith('G'))];
        return green.Length > 0 ? green : [.. Enumerable.Range(0, frame.Planes.Length)];
    }
}
