namespace Leafstop.Core.Sensor;

/// <summary>Black levels, best source first.</summary>
internal static class Black
{
    /// <summary>Black of one plane of a level: the mean of its cap frames, else the best that the frames themselves give.</summary>
    public static (double Dn, BlackSource Source, double ErrorDn) OfPlane(LevelShots level, int plane)
    {
        if (level.Caps.Length > 0)
            return (level.Caps.Average(c => c.Planes[plane].BlackDn), BlackSource.CapFrames, level.Caps.Max(c => c.Planes[plane].BlackErrorDn) ?? 0);
        BlackSource source = level.Frames.Max(f => f.Planes[plane].BlackSource);
        return (level.Frames.Average(f => f.Planes[plane].BlackDn), source, level.Frames.Max(f => f.Planes[plane].BlackErrorDn) ?? 0);
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
