using Leafstop.Raw.Dng;

namespace Leafstop.Raw.Tests.Dng;

public sealed class LosslessJpegTests
{
    [Theory]
    [InlineData(2, 1, 14)]
    [InlineData(2, 33, 14)]
    [InlineData(6, 4, 8)]
    [InlineData(130, 57, 14)]
    [InlineData(130, 57, 12)]
    [InlineData(254, 40, 15)]
    public void Samples_of_every_size_come_back(int width, int height, int bits)
    {
        // Derived: round trip through a decoder written from the standard alone.
        var random = new Random(width + height + bits);
        int top = (1 << bits) - 1;
        var pictures = new Func<int, int>[]
        {
            _ => random.Next(top + 1),
            i => i % 2 == 0 ? 0 : top,
            i => i / 2 % 2 == 0 ? 0 : top,
            _ => top,
            _ => 0,
            i => Math.Clamp(top / 3 + i % width + random.Next(-9, 10), 0, top),
        };
        foreach (var picture in pictures)
        {
            ushort[] samples = [.. Enumerable.Range(0, width * height).Select(i => (ushort)picture(i))];
            var back = LosslessJpegDecoder.Decode(LosslessJpeg.Encode(samples, width, height, bits));
            Assert.Equal((width, height, bits), (back.Width, back.Height, back.Bits));
            Assert.Equal(samples, back.Samples);
        }
    }

    [Fact]
    public void Noise_of_a_few_codes_takes_about_as_many_bits_as_it_must()
    {
        // Derived: differences of Gaussian noise of sd 4 have sd 5.657 and an entropy of log2(5.657 sqrt(2 pi e)) = 4.55 bits; Huffman by category costs under 0.25 more.
        var random = new Random(5);
        ushort[] samples = [.. Enumerable.Range(0, 400 * 300).Select(_ => (ushort)Math.Round(1000 + 4 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())))];
        double bits = 8.0 * LosslessJpeg.Encode(samples, 400, 300, 14).Length / samples.Length;
        Assert.InRange(bits, 4.5, 4.8);
    }

    [Fact]
    public void Sizes_that_cannot_be_written_are_refused()
    {
        Assert.Throws<ArgumentException>(() => LosslessJpeg.Encode(new ushort[9], 3, 3, 14));
        Assert.Throws<ArgumentException>(() => LosslessJpeg.Encode(new ushort[8], 4, 3, 14));
        Assert.Throws<ArgumentException>(() => LosslessJpeg.Encode(new ushort[8], 4, 2, 16));
    }
}
