namespace Leafstop.Raw.Synthetic;

/// <summary>Pixels that leak: the same pixels with the same mean number of electrons too many in every frame of a seed, counted with the noise of their own that electrons have.</summary>
internal readonly struct HotPixels(ulong seed, double share)
{
    private const double LeastElectrons = 200, MostElectrons = 4000;

    /// <summary>Adds the extra electrons of one row of one frame.</summary>
    public void AddTo(Span<double> electrons, int y, ref SensorRandom noise)
    {
        if (share <= 0)
            return;
        // Frame numbers start at 1, so stream 0 of a seed belongs to its hot pixels.
        var random = new SensorRandom(seed, 0, (ulong)y);
        double skip = 1 / Math.Log(1 - share);
        for (long x = Skip(ref random, skip); x < electrons.Length; x += 1 + Skip(ref random, skip))
            electrons[(int)x] += noise.NextPoisson(LeastElectrons + (MostElectrons - LeastElectrons) * random.NextUniform());
    }

    /// <summary>Pixels passed over before the next hot one: geometric.</summary>
    private static long Skip(ref SensorRandom random, double skip) => (long)Math.Min(1e9, Math.Floor(Math.Log(1 - random.NextUniform()) * skip));
}
