using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling;

/// <summary>ISO marks as cameras engrave them, a third of a stop apart.</summary>
/// <remarks>A mark stands for the exact power of 2 from ISO 100, so 320 is 317.5. The names are common practice, no source.</remarks>
internal static class DialIso
{
    /// <summary>The mark at or below an exact ISO; one that lies within 1e-9 stop of a mark is that mark.</summary>
    public static Iso AtOrBelow(Iso exact)
    {
        int thirds = (int)Math.Floor(3 * Math.Log2(exact.Speed / 100) + 1e-9);
        int stop = (int)Math.Floor(thirds / 3.0);
        double whole = Math.Pow(2, stop);
        double name = (thirds - 3 * stop) switch
        {
            0 => 100 * whole,
            1 => 125 * whole,
            _ => stop < 3 ? 160 * whole : 1250 * whole / 8,
        };
        return Iso.FromSpeed(name < 16 ? Math.Round(name, 1) : Math.Round(name));
    }
}
