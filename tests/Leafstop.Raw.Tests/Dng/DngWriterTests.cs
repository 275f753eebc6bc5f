using System.Buffers.Binary;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Synthetic;
using Leafstop.Raw.Tests.Decoding;
using SkiaSharp;

namespace Leafstop.Raw.Tests.Dng;

public sealed class DngWriterTests
{
    [Theory]
    [InlineData("2x2", true)]
    [InlineData("2x2", false)]
    [InlineData("6x6", true)]
    [InlineData("6x6", false)]
    public void A_written_frame_is_read_back_sample_for_sample_with_all_that_it_says(string mosaic, bool lossless)
    {
        // Derived: round trip through LibRaw, which shares no code with the writer.
        using var folder = new ScratchFolder();
        var bench = new SyntheticBench(new() { Width = 240, Height = 160, Isos = [500, 102_400], Mosaic = BenchMosaic.Named(mosaic)!, Lossless = lossless });
        foreach (int index in new[] { 0, 2, 5 })
        {
            string path = Write(folder, bench, index);
            using var made = bench.Render(index);
            using var read = RawFile.Open(path);
            Assert.Equal(0, read.DataErrors);
            Assert.Equal((made.Left, made.Top, made.Width, made.Height), (read.Left, read.Top, read.Width, read.Height));
            Assert.Equal(made.Samples.Length / made.Stride, read.Samples.Length / read.Stride);
            for (int y = 0; y < made.Samples.Length / made.Stride; y++)
                Assert.True(made.Samples.Span.Slice(y * made.Stride, made.Stride).SequenceEqual(read.Samples.Span.Slice(y * read.Stride, made.Stride)));
            Assert.Equal(made.TagBlackDn, read.TagBlackDn);
            Assert.Equal(made.MaskedAreas.Sum(m => (m.Bottom - m.Top) * (m.Right - m.Left)), read.MaskedAreas.Sum(m => (m.Bottom - m.Top) * (m.Right - m.Left)));
            var (want, got) = (made.Header, read.Header);
            Assert.Equal((want.Make, want.Model, want.Iso, want.FNumber, want.FocalMm, want.TakenAt), (got.Make, got.Model, got.Iso, got.FNumber, got.FocalMm, got.TakenAt));
            Assert.Equal(want.ShutterSeconds!.Value, got.ShutterSeconds!.Value, 1e-6);
            Assert.Equal((want.Mosaic.Letters, want.WhiteTagDn, want.IsLossy), (got.Mosaic.Letters, got.WhiteTagDn, got.IsLossy));
            Assert.NotNull(got.BodyFingerprint);
        }
    }

    [Theory]
    [InlineData("2x2", 60, 40)]
    [InlineData("6x6", 40, 26)]
    public void The_first_directory_holds_a_developed_picture_and_points_to_the_raw(string mosaic, int width, int height)
    {
        using var folder = new ScratchFolder();
        var bench = new SyntheticBench(new() { Width = 240, Height = 160, Isos = [100], Mosaic = BenchMosaic.Named(mosaic)! });
        byte[] file = File.ReadAllBytes(Write(folder, bench, 0));
        var main = Directory(file, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(4)));
        var raw = Directory(file, main[330]);
        // Published: NewSubfileType 1 is a reduced picture, 0 the full one; 32803 is a filter mosaic (TIFF 6.0, DNG 1.4).
        Assert.Equal((1u, 6u, 0u, 32803u), (main[254], main[262], raw[254], raw[262]));
        using var picture = SKBitmap.Decode(file.AsSpan((int)main[273], (int)main[279]));
        Assert.Equal((width, height), (picture.Width, picture.Height));
        // The mid-grey card comes out grey and mid; the lining of the box nearly black.
        var card = picture.GetPixel((int)(0.61 * width), (int)(0.27 * height));
        Assert.InRange(card.Green, 110, 150);
        Assert.InRange(Math.Max(card.Red, card.Blue) - Math.Min(card.Red, card.Blue), 0, 12);
        Assert.InRange(picture.GetPixel((int)(0.19 * width), (int)(0.37 * height)).Green, 0, 40);
    }

    [Fact]
    public void The_noise_profile_follows_the_published_formula_only_when_it_is_meant_to_be_true()
    {
        // Published: SEN-21, S = K / (W - B) and O = sigma^2 / (W - B)^2.
        using var folder = new ScratchFolder();
        foreach (var tag in Enum.GetValues<Raw.Dng.NoiseProfileTag>())
        {
            var bench = new SyntheticBench(new() { Width = 240, Height = 160, Isos = [800], NoiseProfile = tag });
            byte[] file = File.ReadAllBytes(Write(folder, bench, 0));
            var raw = Directory(file, Directory(file, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(4)))[330]);
            if (tag == Raw.Dng.NoiseProfileTag.None)
            {
                Assert.DoesNotContain((ushort)51041, raw.Keys);
                continue;
            }
            double s = BinaryPrimitives.ReadDoubleLittleEndian(file.AsSpan((int)raw[51041])), o = BinaryPrimitives.ReadDoubleLittleEndian(file.AsSpan((int)raw[51041] + 8));
            double range = 16_383 - 511.6, gain = 50_000 / 8.0 / (15_872 - 511.6), noise = 1.5 / gain;
            bool honest = tag == Raw.Dng.NoiseProfileTag.True;
            Assert.Equal(1 / gain / range * (honest ? 1 : 1 / 3.0), s, 1e-12);
            Assert.Equal(noise * noise / (range * range) * (honest ? 1 : 9), o, 1e-14);
        }
    }

    /// <summary>Published: SEN-23, tag numbers. Each holds what the frame says: the 2×2 cell RGGB, black 511.6 in one number, white 16383 (job, Body A), and the neutral.</summary>
    [Fact]
    public void Tags_have_their_published_numbers()
    {
        using var folder = new ScratchFolder();
        var bench = new SyntheticBench(new() { Width = 240, Height = 160, Isos = [100] });
        byte[] file = File.ReadAllBytes(Write(folder, bench, 0));
        var main = Directory(file, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(4)));
        var raw = Directory(file, main[330]);
        // CFARepeatPatternDim, CFAPattern, BlackLevelRepeatDim: two shorts or four bytes lie in the field itself.
        Assert.Equal(2u, raw[33421]);
        Assert.Equal(BitConverter.ToUInt32([0, 1, 1, 2]), raw[33422]);
        Assert.Equal(1u, raw[50713]);
        // BlackLevel as a fraction, WhiteLevel.
        int black = (int)raw[50714];
        Assert.Equal(511.6, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(black)) / (double)BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(black + 4)), 1e-9);
        Assert.Equal(16_383u, raw[50717]);
        // AsShotNeutral: three fractions, green is 1.
        int neutral = (int)main[50728];
        Assert.Equal(BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(neutral + 8)), BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(neutral + 12)));
    }

    /// <summary>Published: SEN-20, N(x) = √(S·x + O) with x from black 0 to white 1: at each tone the noise of the frame itself, in raw steps over that range.</summary>
    [Theory]
    [InlineData(100, 3.6)]
    [InlineData(800, 1.5)]
    public void The_noise_profile_tells_the_noise_of_each_tone(double iso, double readNoise)
    {
        using var folder = new ScratchFolder();
        var bench = new SyntheticBench(new() { Width = 240, Height = 160, Isos = [iso], NoiseProfile = Raw.Dng.NoiseProfileTag.True });
        byte[] file = File.ReadAllBytes(Write(folder, bench, 0));
        var raw = Directory(file, Directory(file, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(4)))[330]);
        double s = BinaryPrimitives.ReadDoubleLittleEndian(file.AsSpan((int)raw[51041])), o = BinaryPrimitives.ReadDoubleLittleEndian(file.AsSpan((int)raw[51041] + 8));
        double range = 16_383 - 511.6, gain = 50_000 * 100 / iso / (15_872 - 511.6);
        foreach (double x in new[] { 0, 0.001, 0.18, 0.9 })
        {
            double electrons = x * range * gain, noiseDn = Math.Sqrt(electrons + readNoise * readNoise) / gain;
            Assert.Equal(noiseDn / range, Math.Sqrt(s * x + o), 1e-12);
        }
    }

    private static string Write(ScratchFolder folder, SyntheticBench bench, int index)
    {
        using var bytes = new MemoryStream();
        BenchSample.WriteFrame(bench, index, bytes);
        return folder.Write($"{bench.Options.NoiseProfile}-{bench.Frames[index].FileName}", bytes.ToArray());
    }

    /// <summary>The fields of a directory: the value itself when it is one short or long, otherwise where it lies.</summary>
    private static Dictionary<ushort, uint> Directory(byte[] file, uint at)
    {
        var fields = new Dictionary<ushort, uint>();
        int count = BinaryPrimitives.ReadUInt16LittleEndian(file.AsSpan((int)at));
        for (int i = 0; i < count; i++)
        {
            var field = file.AsSpan((int)at + 2 + 12 * i, 12);
            bool isShort = BinaryPrimitives.ReadUInt16LittleEndian(field[2..]) == 3 && BinaryPrimitives.ReadUInt32LittleEndian(field[4..]) <= 2;
            fields.Add(BinaryPrimitives.ReadUInt16LittleEndian(field), isShort ? BinaryPrimitives.ReadUInt16LittleEndian(field[8..]) : BinaryPrimitives.ReadUInt32LittleEndian(field[8..]));
        }
        return fields;
    }
}
