namespace Leafstop.Raw.Synthetic;

/// <summary>The fixed sensitivity of the pixels of Body A: a Gaussian a pixel, in steps of a 32nd of its standard deviation. It belongs to the body, not to a seed.</summary>
internal sealed class PixelResponse
{
    /// <summary>Steps that make one standard deviation.</summary>
    public const int StepsPerSigma = 32;

    private const ulong BodySeed = 0xA0001;
    private static readonly Lock Gate = new();
    private static PixelResponse? s_kept;

    private readonly int _width, _height;

    private PixelResponse(int width, int height) => (_width, _height, Steps) = (width, height, new sbyte[width * height]);

    /// <summary>One value an active pixel, row by row.</summary>
    public sbyte[] Steps { get; }

    /// <summary>The response for a size; the last is kept.</summary>
    public static PixelResponse For(int width, int height)
    {
        lock (Gate)
        {
            if (s_kept is { } kept && kept._width == width && kept._height == height)
                return kept;
            var made = new PixelResponse(width, height);
            Parallel.For(0, height, y =>
            {
                var random = new SensorRandom(BodySeed, 0, (ulong)y);
                for (int x = 0; x < width; x++)
                    made.Steps[y * width + x] = (sbyte)Math.Clamp(Math.Round(StepsPerSigma * random.NextGaussian()), -127, 127);
            });
            return s_kept = made;
        }
    }
}
