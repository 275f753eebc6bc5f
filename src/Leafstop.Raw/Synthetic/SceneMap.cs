using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Synthetic;

/// <summary>What the scene sends to each active pixel: expected electrons of the metered ISO 100 frame, lens shading and filter colours included, pixel differences not.</summary>
internal sealed class SceneMap
{
    private const int TileSide = 64;
    private const long KeptPixels = 30_000_000;
    private const int LeastKept = 2;

    /// <summary>Share of the light of the lamp that red and blue pixels see of a neutral tone, green being 1.</summary>
    public const float RedShare = 0.55f, BlueShare = 0.45f;

    private static readonly Lock Gate = new();
    private static readonly LinkedList<(Key Key, Lazy<SceneMap> Map)> Kept = [];

    private readonly record struct Key(int Width, int Height, string Letters, int Seed, double X, double Y);

    /// <summary>Expected electrons, row by row.</summary>
    public required float[] Electrons { get; init; }

    /// <summary>The map for a frame; the last few are kept, so that levels and seeds share one.</summary>
    public static SceneMap For(int width, int height, MosaicPattern mosaic, int seed, double shiftX, double shiftY)
    {
        var key = new Key(width, height, mosaic.Letters, seed, shiftX, shiftY);
        Lazy<SceneMap>? map = null;
        lock (Gate)
        {
            for (var node = Kept.First; node is not null; node = node.Next)
            {
                if (node.Value.Key != key)
                    continue;
                map = node.Value.Map;
                Kept.Remove(node);
                Kept.AddFirst(node);
                break;
            }
            if (map is null)
            {
                map = new(() => Draw(key, mosaic));
                Kept.AddFirst((key, map));
                while (Kept.Count > LeastKept && Kept.Sum(k => (long)k.Key.Width * k.Key.Height) > KeptPixels)
                    Kept.RemoveLast();
            }
        }
        return map.Value;
    }

    private static SceneMap Draw(Key key, MosaicPattern mosaic)
    {
        double unitX = 1.5 / key.Width, unitY = 1.0 / key.Height;
        var brush = new Brush(Math.Max(unitX, unitY), key.Seed);
        var electrons = new float[key.Width * key.Height];
        float midGrey = (float)(BodyA.MidGreyShare * BodyA.FullWellElectrons / Shading(0.915, 0.275));
        int across = (key.Width + TileSide - 1) / TileSide, down = (key.Height + TileSide - 1) / TileSide;
        Parallel.For(0, across * down, index =>
        {
            int left = index % across * TileSide, top = index / across * TileSide;
            int right = Math.Min(left + TileSide, key.Width), bottom = Math.Min(top + TileSide, key.Height);
            var tile = BenchScene.Instance.TileAt(brush, (left - key.X) * unitX, (top - key.Y) * unitY, (right - key.X) * unitX, (bottom - key.Y) * unitY);
            for (int y = top; y < bottom; y++)
            {
                for (int x = left; x < right; x++)
                {
                    // A picture moved right shows at pixel x what lay at x - shift; lens shading belongs to the lens and stays.
                    var light = tile.LightAt(brush, (x + 0.5 - key.X) * unitX, (y + 0.5 - key.Y) * unitY);
                    float seen = mosaic.Letters[y % mosaic.Rows * mosaic.Columns + x % mosaic.Columns] switch
                    {
                        'R' => RedShare * light.X,
                        'B' => BlueShare * light.Z,
                        _ => light.Y,
                    };
                    float expected = midGrey * seen * Shading((x + 0.5) * unitX, (y + 0.5) * unitY);
                    electrons[y * key.Width + x] = float.IsFinite(expected) ? expected : throw new InvalidOperationException($"The scene has no light at {x}, {y}.");
                }
            }
        });
        return new SceneMap { Electrons = electrons };
    }

    /// <summary>Lens shading at a point of the frame, scene units: 1 in the middle, falling to about 70 % in the corners.</summary>
    internal static float Shading(double x, double y)
    {
        double r2 = ((x - 0.75) * (x - 0.75) + (y - 0.5) * (y - 0.5)) / (0.75 * 0.75 + 0.25);
        double fall = 1 / (1 + 0.195 * r2);
        return (float)(fall * fall);
    }
}
