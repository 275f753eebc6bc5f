using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Synthetic;

/// <summary>Soft edges and textures in scene coordinates, already blurred as a lens would, so that a scene has no detail finer than the sensor can hold.</summary>
/// <remarks>Scene units: the height of the frame is 1. Because nothing is sampled before the pixel grid, a picture shifted by a part of a pixel is exactly that.</remarks>
/// <param name="BlurUnits">Standard deviation of the lens blur, scene units.</param>
/// <param name="Seed">Seed of the textures.</param>
internal readonly record struct Brush(double BlurUnits, int Seed)
{
    private const double EdgeReach = 8;

    /// <summary>How far the blur of an edge reaches before it is nothing at all, scene units.</summary>
    public double Reach => EdgeReach * BlurUnits;

    /// <summary>How much of a point lies inside an edge that is <paramref name="inside"/> units away (negative: outside), 0 to 1.</summary>
    /// <param name="inside">Signed distance, scene units.</param>
    /// <param name="softness">Further softness of the edge itself, scene units.</param>
    public double Edge(double inside, double softness = 0)
    {
        double t = inside / Math.Sqrt(BlurUnits * BlurUnits + softness * softness);
        // A logistic curve is within 0.01 of a Gaussian edge and cheap; smooth is all that matters here.
        return t > EdgeReach ? 1 : t < -EdgeReach ? 0 : 1 / (1 + Math.Exp(-1.702 * t));
    }

    /// <summary>Coverage of a rectangle about (cx, cy), half sides (a, b), turned clockwise by <paramref name="angle"/> radians; (u, v) are the coordinates along its sides.</summary>
    public double Rectangle(double x, double y, double cx, double cy, double a, double b, double angle, out double u, out double v, double softness = 0)
    {
        (double sin, double cos) = Math.SinCos(angle);
        u = (x - cx) * cos + (y - cy) * sin;
        v = (y - cy) * cos - (x - cx) * sin;
        return Edge(a - Math.Abs(u), softness) * Edge(b - Math.Abs(v), softness);
    }

    /// <summary>Coverage of an ellipse about (cx, cy); <paramref name="radius"/> is 1 on its edge.</summary>
    public double Ellipse(double x, double y, double cx, double cy, double a, double b, out double radius, double softness = 0)
    {
        double u = (x - cx) / a, v = (y - cy) / b;
        radius = Math.Sqrt(u * u + v * v);
        return Edge((1 - radius) * Math.Min(a, b), softness);
    }

    /// <summary>Smooth noise, mean 0, standard deviation near 0.5, with details of one size.</summary>
    /// <param name="x">Across, scene units.</param>
    /// <param name="y">Down, scene units.</param>
    /// <param name="sizeX">Size of a detail across; details that the lens blur swallows fade out.</param>
    /// <param name="sizeY">Size of a detail down.</param>
    /// <param name="layer">Which of many independent noises.</param>
    public double Noise(double x, double y, double sizeX, double sizeY, int layer)
    {
        // A lattice of spacing L has its energy near one cycle in 2 L: the Gaussian lens passes exp(-2 (pi s f)^2) of it.
        double f = BlurUnits * Math.PI / (2 * Math.Min(sizeX, sizeY));
        double pass = Math.Exp(-2 * f * f);
        if (pass < 0.02)
            return 0;
        double px = x / sizeX, py = y / sizeY;
        double fx = Math.Floor(px), fy = Math.Floor(py);
        int ix = (int)fx, iy = (int)fy;
        double tx = Ease(px - fx), ty = Ease(py - fy);
        double top = Lattice(ix, iy, layer) + tx * (Lattice(ix + 1, iy, layer) - Lattice(ix, iy, layer));
        double low = Lattice(ix, iy + 1, layer) + tx * (Lattice(ix + 1, iy + 1, layer) - Lattice(ix, iy + 1, layer));
        return pass * (top + ty * (low - top));
    }

    /// <summary>Noise of several sizes, each half the one before.</summary>
    public double Fractal(double x, double y, double sizeX, double sizeY, int octaves, int layer, double persistence = 0.6)
    {
        double sum = 0, weight = 1;
        for (int i = 0; i < octaves; i++)
        {
            sum += weight * Noise(x, y, sizeX, sizeY, layer + 31 * i);
            weight *= persistence;
            sizeX *= 0.5;
            sizeY *= 0.5;
        }
        return sum;
    }

    private static double Ease(double t) => t * t * t * (t * (t * 6 - 15) + 10);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private double Lattice(int x, int y, int layer)
    {
        uint h = (uint)x * 0x8DA6B343u ^ (uint)y * 0xD8163841u ^ (uint)(layer + Seed * 7919) * 0xCB1AB31Fu;
        h = (h ^ h >> 15) * 0x2C1B3C6Du;
        h = (h ^ h >> 12) * 0x297A2D39u;
        h ^= h >> 15;
        return h * (2.0 / uint.MaxValue) - 1;
    }
}
