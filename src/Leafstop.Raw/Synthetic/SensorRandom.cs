using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Synthetic;

/// <summary>A small seeded generator (xoshiro256**) with exact Poisson and Gaussian draws. One instance a row: cheap to make, never shared.</summary>
/// <remarks>
/// xoshiro256**: Blackman and Vigna 2021, seeded by splitmix64. Gaussian: ziggurat of Marsaglia and Tsang 2000 with 128 layers,
/// layer and position from different bits. Poisson: inversion below a mean of 10, above it transformed rejection with squeeze
/// (PTRS, Hörmann 1993). All three are exact up to the 53 bits of a draw.
/// </remarks>
internal struct SensorRandom
{
    private const int Layers = 128;
    private const double Tail = 3.442619855899;
    private const double LayerArea = 9.91256303526217e-3;

    // Only guards against the last bits of a draw when the sum of probabilities stops growing: at mean 10 this count has a probability under 1e-80.
    private const int SmallCountCap = 120;
    private static readonly double[] X = new double[Layers + 1];
    private static readonly double[] Density = new double[Layers + 1];
    private static readonly double[] LogFactorial = new double[16];
    private static readonly double[] Reciprocal = new double[SmallCountCap + 1];

    private ulong _a, _b, _c, _d;

#pragma warning disable CA1810 // The tables depend on each other; one static constructor is the plain way to fill them.
    static SensorRandom()
#pragma warning restore CA1810
    {
        double f = Math.Exp(-0.5 * Tail * Tail);
        X[0] = LayerArea / f;
        X[1] = Tail;
        for (int i = 2; i < Layers; i++)
        {
            X[i] = Math.Sqrt(-2 * Math.Log(LayerArea / X[i - 1] + f));
            f = Math.Exp(-0.5 * X[i] * X[i]);
        }
        for (int i = 0; i <= Layers; i++)
            Density[i] = Math.Exp(-0.5 * X[i] * X[i]);
        for (int k = 2; k < LogFactorial.Length; k++)
            LogFactorial[k] = LogFactorial[k - 1] + Math.Log(k);
        for (int k = 1; k < Reciprocal.Length; k++)
            Reciprocal[k] = 1.0 / k;
    }

    /// <summary>A stream of its own for each triple.</summary>
    public SensorRandom(ulong seed, ulong frame, ulong row)
    {
        ulong s = Mix(Mix(Mix(seed + 0x9E3779B97F4A7C15) ^ frame * 0xD1B54A32D192ED03) ^ row * 0xABC98388FB8FAC03);
        _a = Mix(s += 0x9E3779B97F4A7C15);
        _b = Mix(s += 0x9E3779B97F4A7C15);
        _c = Mix(s += 0x9E3779B97F4A7C15);
        _d = Mix(s + 0x9E3779B97F4A7C15);
    }

    /// <summary>The finishing step of splitmix64.</summary>
    public static ulong Mix(ulong z)
    {
        z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9;
        z = (z ^ z >> 27) * 0x94D049BB133111EB;
        return z ^ z >> 31;
    }

    /// <summary>64 random bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ulong NextBits()
    {
        ulong result = ulong.RotateLeft(_b * 5, 7) * 9, t = _b << 17;
        _c ^= _a;
        _d ^= _b;
        _b ^= _c;
        _a ^= _d;
        _c ^= t;
        _d = ulong.RotateLeft(_d, 45);
        return result;
    }

    /// <summary>Uniform in [0, 1).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double NextUniform() => (NextBits() >> 11) * (1.0 / (1L << 53));

    /// <summary>Gaussian with mean 0 and standard deviation 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double NextGaussian()
    {
        ulong bits = NextBits();
        int layer = (int)(bits & (Layers - 1));
        // Signed 53-bit position from the high bits; the layer came from the low ones.
        double x = ((long)bits >> 10) * (1.0 / (1L << 53)) * X[layer];
        return Math.Abs(x) < X[layer + 1] ? x : GaussianEdge(layer, x);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private double GaussianEdge(int layer, double x)
    {
        while (true)
        {
            if (Math.Abs(x) < X[layer + 1])
                return x;
            if (layer == 0)
            {
                double tx, ty;
                do
                {
                    tx = -Math.Log(1 - NextUniform()) / Tail;
                    ty = -Math.Log(1 - NextUniform());
                }
                while (ty + ty < tx * tx);
                return x < 0 ? -(Tail + tx) : Tail + tx;
            }
            if (Density[layer] + NextUniform() * (Density[layer + 1] - Density[layer]) < Math.Exp(-0.5 * x * x))
                return x;
            ulong bits = NextBits();
            layer = (int)(bits & (Layers - 1));
            x = ((long)bits >> 10) * (1.0 / (1L << 53)) * X[layer];
        }
    }

    /// <summary>A Poisson count.</summary>
    /// <param name="mean">Expected count, finite, 0 or more.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int NextPoisson(double mean) => mean < 10 ? SmallPoisson(mean) : LargePoisson(mean);

    private int SmallPoisson(double mean)
    {
        double u = NextUniform(), p = Math.Exp(-mean);
        int k = 0;
        while (u >= p && k < SmallCountCap)
        {
            u -= p;
            p *= mean * Reciprocal[++k];
        }
        return k;
    }

    private int LargePoisson(double mean)
    {
        double b = 0.931 + 2.53 * Math.Sqrt(mean), a = -0.059 + 0.02483 * b;
        while (true)
        {
            double u = NextUniform() - 0.5, v = NextUniform(), us = 0.5 - Math.Abs(u);
            double k = Math.Floor((2 * a / us + b) * u + mean + 0.43);
            // The squeeze v <= 0.9277 - 3.6224 / (b - 2), without its division.
            if (us >= 0.07 && (0.9277 - v) * (b - 2) >= 3.6224)
                return (int)k;
            if (k >= 0 && !(us < 0.013 && v > us) && Accept(k, v, us, a, b, mean))
                return (int)k;
        }
    }

    private static bool Accept(double k, double v, double us, double a, double b, double mean)
    {
        double inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
        return Math.Log(v * inverseAlpha / (a / (us * us) + b)) <= -mean + k * Math.Log(mean) - LnFactorial(k);
    }

    private static double LnFactorial(double k)
    {
        if (k < LogFactorial.Length)
            return LogFactorial[(int)k];
        double inverse = 1 / k, square = inverse * inverse;
        return (k + 0.5) * Math.Log(k) - k + 0.918938533204672742
            + inverse * (1.0 / 12 - square * (1.0 / 360 - square * (1.0 / 1260 - square / 1680)));
    }
}
