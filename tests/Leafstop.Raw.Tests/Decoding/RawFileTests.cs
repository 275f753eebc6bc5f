using System.Security.Cryptography;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>Real files of known content. Expected values: the table and the notes of samples/raw/README.md.</summary>
public sealed class RawFileTests
{
    // Published: samples/raw/README.md, the table.
    [Theory]
    [InlineData("canon-g2-0304.crw", 50, 50.4, 4, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 29, 815)]
    [InlineData("canon-g2-0305.crw", 50, 50.4, 4, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 29, 981)]
    [InlineData("canon-s40-0101.crw", 50, 100.9, 2.8, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 28, 738)]
    [InlineData("canon-s40-0104.crw", 50, 100.9, 2.8, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 28, 854)]
    [InlineData("canon-s40-0112.crw", 50, 6, 2.8, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 29, 1023)]
    [InlineData("canon-s40-0119.crw", 50, 60, 2.8, 2376, 1728, 2312, 1720, 12, 6, "RGGB", 32, 1023, 28, 1023)]
    [InlineData("kodak-dc120-3908.kdc", 160, 274.7, 4, 848, 976, 848, 976, 0, 0, "GRBG", 0, 255, 0, 130)]
    [InlineData("kodak-dc120-3911.kdc", 160, 266, 3.7, 848, 976, 848, 976, 0, 0, "GRBG", 0, 510, 0, 326)]
    [InlineData("kodak-dc50-0009l.kdc", 84, 33.1, 2.5, 768, 512, 768, 512, 0, 0, "GRBG", 0, 16383, 219, 10011)]
    public void A_real_file_reads_as_its_table_says(string name, double iso, double perSecond, double fNumber, int rawWidth, int rawHeight,
        int width, int height, int left, int top, string letters, double black, double white, int min, int max)
    {
        using var frame = RawFile.Open(SampleFiles.Raw(name));

        Assert.Equal(iso, frame.Header.Iso);
        Assert.Equal(perSecond, 1 / frame.Header.ShutterSeconds!.Value, 0.0501); // the table rounds the denominator to 0.1
        Assert.Equal(fNumber, frame.Header.FNumber!.Value, 0.05); // the table rounds to one decimal
        Assert.Equal((rawWidth, rawWidth * rawHeight), (frame.Stride, frame.Samples.Length));
        Assert.Equal((width, height, left, top), (frame.Width, frame.Height, frame.Left, frame.Top));
        Assert.Equal(("2x2", letters), (frame.Header.Mosaic.Name, frame.Header.Mosaic.Letters));
        Assert.All(frame.LibraryBlackDn, b => Assert.Equal(black, b));
        Assert.Equal(4, frame.LibraryBlackDn.Length);
        Assert.Equal(white, frame.Header.WhiteTagDn);
        Assert.Equal(0, frame.DataErrors);
        int least = int.MaxValue, most = 0;
        foreach (ushort sample in frame.Samples.Span)
            (least, most) = (Math.Min(least, sample), Math.Max(most, sample));
        Assert.Equal((min, max), (least, most));
    }

    // Published: samples/raw/README.md, "42,566 pixels at the clip level (1023)" and "1,295 clipped pixels".
    [Theory]
    [InlineData("canon-s40-0119.crw", 42_566)]
    [InlineData("canon-s40-0112.crw", 1_295)]
    public void Clipped_samples_are_as_many_as_published(string name, int expected)
    {
        using var frame = RawFile.Open(SampleFiles.Raw(name));
        int clipped = 0;
        foreach (ushort sample in frame.Samples.Span)
            clipped += sample >= 1023 ? 1 : 0;
        Assert.Equal(expected, clipped);
    }

    // Published: samples/raw/README.md, columns 2332..2371, rows 8..1717: mean 32.03 to 32.18 DN, sd 0.70 to 0.80 DN by plane.
    [Theory]
    [InlineData("canon-g2-0304.crw")]
    [InlineData("canon-s40-0119.crw")]
    public void The_shielded_border_is_dark_as_published_and_our_masked_areas_agree_with_it(string name)
    {
        using var frame = RawFile.Open(SampleFiles.Raw(name));
        MaskedArea published = new(8, 2332, 1718, 2372);
        for (int site = 0; site < 4; site++)
        {
            var (mean, sd) = Spread(frame, [published], site);
            Assert.InRange(mean, 32.025, 32.185); // the README rounds to 0.01 DN
            Assert.InRange(sd, 0.695, 0.805);
            var (ours, _) = Spread(frame, frame.MaskedAreas, site);
            Assert.Equal(mean, ours, 0.02); // a few rows and columns more or less of the same border
        }
    }

    // Published: samples/raw/README.md, "The two lossy ones must not give a noise figure without a warning."
    [Theory]
    [InlineData("kodak-dc120-3911.kdc", true)]
    [InlineData("kodak-dc50-0009l.kdc", true)]
    [InlineData("kodak-dc120-3908.kdc", false)]
    [InlineData("canon-g2-0304.crw", false)]
    [InlineData("canon-s40-0119.crw", false)]
    public void Lossy_files_are_known_before_they_are_unpacked(string name, bool lossy) =>
        Assert.Equal(lossy, RawFile.ReadHeader(SampleFiles.Raw(name)).IsLossy);

    // Published: samples/raw/README.md, the sha256 column.
    [Theory]
    [InlineData("canon-g2-0304.crw", "b480932bb32327d6fd19cda10094807ca195e6d69ebff2c7d1fbc6a1a4c40027")]
    [InlineData("kodak-dc120-3911.kdc", "cc827bc26a623cb20b6c87a124119864c5a38b648490f6589c80ea134b59fb3e")]
    public void Reading_leaves_the_original_byte_identical(string name, string sha256)
    {
        string path = SampleFiles.Raw(name);
        DateTime written = File.GetLastWriteTimeUtc(path);
        RawFile.ReadHeader(path);
        RawFile.Open(path).Dispose();
        Assert.Equal(sha256, Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path))));
        Assert.Equal(written, File.GetLastWriteTimeUtc(path));
    }

    [Fact]
    public void The_header_alone_says_the_same_as_the_opened_frame_but_for_the_white_level()
    {
        string path = SampleFiles.Raw("canon-s40-0119.crw");
        var alone = RawFile.ReadHeader(path);
        using var frame = RawFile.Open(path);
        Assert.Null(alone.WhiteTagDn);
        Assert.Equal(frame.Header with { WhiteTagDn = null, Mosaic = alone.Mosaic }, alone);
        Assert.Equal(frame.Header.Mosaic.Letters, alone.Mosaic.Letters);
    }

    [Fact]
    public void Two_bodies_of_one_model_have_two_fingerprints_of_eight_digits_and_one_body_has_one()
    {
        string? first = RawFile.ReadHeader(SampleFiles.Raw("canon-s40-0101.crw")).BodyFingerprint;
        string? again = RawFile.ReadHeader(SampleFiles.Raw("canon-s40-0104.crw")).BodyFingerprint;
        string? other = RawFile.ReadHeader(SampleFiles.Raw("canon-s40-0112.crw")).BodyFingerprint;
        Assert.Matches("^[0-9a-f]{8}$", first!);
        Assert.Equal(first, again);
        Assert.NotEqual(first, other);
        Assert.Null(RawFile.ReadHeader(SampleFiles.Raw("kodak-dc120-3908.kdc")).BodyFingerprint);
    }

    private static (double Mean, double Sd) Spread(MosaicFrame frame, IEnumerable<MaskedArea> areas, int site)
    {
        long n = 0, sum = 0, squares = 0;
        foreach (var area in areas)
        {
            for (int y = area.Top; y < area.Bottom; y++)
            {
                for (int x = area.Left; x < area.Right; x++)
                {
                    if (((y - frame.Top) & 1) * 2 + ((x - frame.Left) & 1) != site)
                        continue;
                    long sample = frame.Samples.Span[y * frame.Stride + x];
                    (n, sum, squares) = (n + 1, sum + sample, squares + sample * sample);
                }
            }
        }
        double mean = sum / (double)n;
        return (mean, Math.Sqrt((squares - sum * mean) / (n - 1)));
    }
}
