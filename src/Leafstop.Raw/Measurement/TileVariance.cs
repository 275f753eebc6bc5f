using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Measurement;

/// <summary>Variance of one frame in each tile of one plane, DN², with the brightness difference of the pair taken off.</summary>
/// <remarks>d − β(s − 2·black) is free of the scene; its variance is twice that of one frame, to second order in β.</remarks>
internal readonly struct TileVariance
{
    private readonly long[] _dd, _sd, _ss;
    private readonly double _once, _twice, _scale;

    /// <param name="sums">Tile sums of the pair.</param>
    /// <param name="plane">Plane index.</param>
    /// <param name="imbalance">β = (A − B) / (A + B) of the pair's brightness above black.</param>
    public TileVariance(TileSums sums, int plane, double imbalance)
    {
        (_dd, _sd, _ss) = (sums.DD[plane], sums.SD[plane], sums.SS[plane]);
        (_once, _twice) = (2 * imbalance, imbalance * imbalance);
        _scale = 1 / (2.0 * sums.Layout.RowScale[plane] * sums.Layout.FreedomPerTile[plane]);
    }

    /// <summary>Of one tile.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Dn2(int tile) => (_dd[tile] - _once * _sd[tile] + _twice * _ss[tile]) * _scale;
}
