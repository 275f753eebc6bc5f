namespace Leafstop.Raw.Measurement;

/// <summary>Whole-number sums of two frames over every tile, one set a plane.</summary>
/// <remarks>
/// With a and b the two samples of a pixel, s = a + b and d = a − b. The second moments are taken about the mean of each
/// row of the tile, so that an offset of a whole row (banding) does not count as grain: C(x, y) = c · (Σxy − Σrows RxRy / n),
/// where c is <see cref="TileLayout.RowScale"/> and makes them whole numbers. All sums are exact: 2^16-valued samples and
/// at most a few hundred of them a tile stay far inside 64 bits.
/// </remarks>
internal sealed class TileSums
{
    /// <param name="layout">How the frames are cut.</param>
    /// <param name="allStored">True when every tile will be stored: nothing has to be cleared first.</param>
    public TileSums(TileLayout layout, bool allStored = false)
    {
        Layout = layout;
        Sum = Make<int>();
        Difference = Make<int>();
        DD = Make<long>();
        SD = Make<long>();
        SS = Make<long>();
        Largest = Make<ushort>();
        Smallest = Make<ushort>();

        T[][] Make<T>() => [.. Enumerable.Range(0, layout.Planes).Select(_ => allStored ? GC.AllocateUninitializedArray<T>(layout.Count) : new T[layout.Count])];
    }

    public TileLayout Layout { get; }

    /// <summary>[plane][tile]: Σs.</summary>
    public int[][] Sum { get; }

    /// <summary>[plane][tile]: Σd.</summary>
    public int[][] Difference { get; }

    /// <summary>[plane][tile]: C(d, d).</summary>
    public long[][] DD { get; }

    /// <summary>[plane][tile]: C(s, d).</summary>
    public long[][] SD { get; }

    /// <summary>[plane][tile]: C(s, s).</summary>
    public long[][] SS { get; }

    /// <summary>[plane][tile]: the largest sample of either frame.</summary>
    public ushort[][] Largest { get; }

    /// <summary>[plane][tile]: the smallest sample of either frame.</summary>
    public ushort[][] Smallest { get; }

    /// <summary>Mean of both frames in a tile, DN.</summary>
    public double MeanDn(int plane, int tile) => Sum[plane][tile] / (2.0 * Layout.PerTile[plane]);
}
