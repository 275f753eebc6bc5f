namespace Leafstop.Testing;

/// <summary>Seeded normal numbers for tests (Box and Muller).</summary>
public sealed class Gaussian(int seed)
{
    private readonly Random _random = new(seed);

    /// <summary>One number of mean 0 and sd 1.</summary>
    public double Next() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());

    /// <summary>A field of them.</summary>
    public double[] Field(int count) => [.. Enumerable.Range(0, count).Select(_ => Next())];
}
