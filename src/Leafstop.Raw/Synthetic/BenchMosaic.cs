using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Synthetic;

/// <summary>The colour filter patterns that Body A comes in.</summary>
public static class BenchMosaic
{
    /// <summary>2×2: red, green / green, blue.</summary>
    public static MosaicPattern TwoByTwo { get; } = new() { Rows = 2, Columns = 2, Letters = "RGGB" };

    /// <summary>6×6: twenty green, eight red and eight blue sites.</summary>
    public static MosaicPattern SixBySix { get; } = new()
    {
        Rows = 6,
        Columns = 6,
        Letters = "GGRGGB" + "GGBGGR" + "BRGRBG" + "GGBGGR" + "GGRGGB" + "RBGBRG",
    };

    /// <summary>The pattern called "2x2" or "6x6"; null for any other name.</summary>
    public static MosaicPattern? Named(string name) => name switch { "2x2" => TwoByTwo, "6x6" => SixBySix, _ => null };
}
