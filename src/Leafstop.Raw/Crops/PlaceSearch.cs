using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Crops;

/// <summary>Finds the three places of a bench scene that show what noise does: by what two frames have in common, for noise differs between them and the scene does not.</summary>
internal sealed class PlaceSearch
{
    /// <summary>Signal that counts as light at all, DN above black.</summary>
    private const double LeastSignalDn = 2;

    /// <summary>Samples at the floor that a dark place may hold.</summary>
    private const double MostCutOff = 0.005;

    /// <summary>Stops that a tenth of structure (deviation of the scene over its mean) weighs in the dark, and a twentieth at the mid tone.</summary>
    private const double DarkWeight = 10, MidWeight = 20;

    /// <summary>The dark that is looked for, stops from mid-grey: the deepest tone of the job. Below it a place is hardly more than read noise, and no print shows it lifted.</summary>
    private const double DarkestStops = -6;

    /// <summary>Fine detail is looked for within so many stops of mid-grey.</summary>
    private const double TextureReach = 1.5;

    private readonly CropGrid _grid;
    private readonly TileScan _tiles;
    private readonly double _midDn, _darkStops;

    private PlaceSearch(CropGrid grid, TileScan tiles, double midDn, double darkStops) => (_grid, _tiles, _midDn, _darkStops) = (grid, tiles, midDn, darkStops);

    private readonly record struct Window(int TileX, int TileY, double SignalDn, double Structure, double Detail, double CutOff);

    /// <summary>Finds the places; a subject that the scene does not hold is missing.</summary>
    /// <param name="first">A frame of the reference level.</param>
    /// <param name="second">Its partner; the same frame when it has none, and then noise counts as detail.</param>
    /// <param name="grid">Grid of both.</param>
    /// <param name="levels">Black, clip and floor of the first frame.</param>
    /// <param name="midStops">The mid tone that is looked for, stops from metered mid-grey.</param>
    /// <param name="darkStops">The dark tone that is looked for, stops from the mid tone.</param>
    /// <returns>Subject, first column and first row.</returns>
    public static ImmutableArray<(CropSubject Subject, int Left, int Top)> In(
        MosaicFrame first, MosaicFrame second, CropGrid grid, FrameLevels levels, double midStops, double darkStops = DarkestStops)
    {
        var tiles = TileScan.Of(first, second, grid, levels);
        double midDn = Math.Pow(2, midStops) * MeteredTone.MidGreyShare * (levels.ClipDn[tiles.Plane] - levels.BlackDn[tiles.Plane]);
        return new PlaceSearch(grid, tiles, midDn, darkStops).Find();
    }

    private ImmutableArray<(CropSubject, int, int)> Find()
    {
        Window[] windows = [.. Windows()];
        var found = ImmutableArray.CreateBuilder<(CropSubject, int, int)>();
        Window[] dark = [.. windows.Where(w => w.CutOff <= MostCutOff)];
        if (dark.Length > 0) Add(CropSubject.Dark, dark.MinBy(w => Math.Abs(FromMid(w) - _darkStops) + DarkWeight * w.Structure));
        if (windows.Length > 0) Add(CropSubject.MidTone, windows.MinBy(w => Math.Abs(FromMid(w)) + MidWeight * w.Structure));
        Window[] textured = [.. windows.Where(w => Math.Abs(FromMid(w)) <= TextureReach && w.Detail > 0)];
        if (textured.Length > 0) Add(CropSubject.Texture, textured.MaxBy(w => w.Detail));
        return found.ToImmutable();

        void Add(CropSubject subject, Window w)
        {
            int tileSide = _grid.SensorSide / CropGrid.Tiles;
            found.Add((subject, w.TileX * tileSide, w.TileY * tileSide));
        }
    }

    /// <summary>Stops above mid-grey; below it negative.</summary>
    private double FromMid(Window window) => Math.Log2(window.SignalDn / _midDn);

    private IEnumerable<Window> Windows()
    {
        const int n = CropGrid.Tiles;
        for (int ty = 0; ty + n <= _tiles.Rows; ty++)
        {
            for (int tx = 0; tx + n <= _tiles.Columns; tx++)
            {
                TileScan.Tile sum = _tiles[tx, ty];
                for (int i = 1; i < n * n; i++) sum = sum.Plus(_tiles[tx + i % n, ty + i / n]);

                double signal = sum.Mean - _tiles.BlackDn;
                if (sum.IsClipped || signal < LeastSignalDn) continue;
                // The calmest tile decides, and in it the median block: hard edges in flat areas are no texture.
                yield return new Window(tx, ty, signal, Math.Sqrt(Math.Max(0, sum.Covariance)) / signal, sum.Detail / (signal * signal), sum.CutOff / (double)sum.Samples);
            }
        }
    }
}
