using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>Small DNG files whose every tag and sample the test itself wrote. All checks are Derived: what was written is what must come back.</summary>
public sealed class DngFileTests : IDisposable
{
    private static readonly byte[] SixBySix =
    [
        1, 2, 1, 1, 0, 1, 0, 1, 0, 2, 1, 2, 1, 2, 1, 1, 0, 1, 1, 0, 1, 1, 2, 1, 2, 1, 2, 0, 1, 0, 1, 0, 1, 1, 2, 1,
    ];

    private readonly ScratchFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<int, int, string, int, int> Cells => new()
    {
        { 2, 2, "RGGB", 0, 0 }, { 2, 2, "GBRG", 5, 3 }, { 2, 2, "BGGR", 7, 2 }, { 6, 6, "", 0, 0 }, { 6, 6, "", 5, 7 },
    };

    [Theory]
    [MemberData(nameof(Cells))]
    public void Samples_and_filters_come_back_as_written_at_any_margin(int rows, int columns, string letters, int left, int top)
    {
        byte[] cell = letters.Length == 0 ? SixBySix : [.. letters.Select(l => (byte)"RGB".IndexOf(l))];
        var dng = new PlainDng
        {
            CellRows = rows,
            CellColumns = columns,
            Cell = cell,
            ActiveArea = [(uint)top, (uint)left, 60, 90],
        };
        using var frame = RawFile.Open(_folder.Write("frame.dng", dng.ToBytes()));

        Assert.Equal($"{rows}x{columns}", frame.Header.Mosaic.Name);
        // On 2x2 the library starts at an even row and column: up to one of each is given away.
        int slack = rows == 2 ? 1 : 0;
        Assert.InRange(frame.Left - left, 0, slack);
        Assert.InRange(frame.Top - top, 0, slack);
        Assert.Equal((90, 60), (frame.Left + frame.Width, frame.Top + frame.Height));
        for (int site = 0; site < cell.Length; site++)
        {
            int fromTop = (site / columns + frame.Top - top) % rows, fromLeft = (site % columns + frame.Left - left) % columns;
            Assert.Equal("RGB"[cell[fromTop * columns + fromLeft]], frame.Header.Mosaic.Letters[site]);
        }
        AssertSamples(dng, frame);
        Assert.Equal(PlainDng.SampleAt(frame.Left + 3, frame.Top + 2), frame.Row(2)[3]);
    }

    [Fact]
    public void A_sensor_without_filters_has_the_one_plane_M()
    {
        var dng = new PlainDng { Cell = [] };
        using var frame = RawFile.Open(_folder.Write("mono.dng", dng.ToBytes()));
        Assert.Equal(("1x1", "M"), (frame.Header.Mosaic.Name, frame.Header.Mosaic.Letters));
        AssertSamples(dng, frame);
        Assert.Equal([512.0], frame.TagBlackDn);
    }

    [Fact]
    public void A_black_level_with_a_fraction_keeps_it_although_the_library_cuts_it_off()
    {
        var dng = new PlainDng { Black256 = [511 * 256 + 192] };
        using var frame = RawFile.Open(_folder.Write("black.dng", dng.ToBytes()));
        Assert.Equal([511.75, 511.75, 511.75, 511.75], frame.TagBlackDn);
        Assert.Equal([511.0, 511.0, 511.0, 511.0], frame.LibraryBlackDn);
    }

    [Fact]
    public void A_black_level_by_site_counts_from_the_active_area()
    {
        var dng = new PlainDng { ActiveArea = [3, 5, 60, 90], BlackRows = 2, BlackColumns = 2, Black256 = [256 * 500 + 64, 256 * 501, 256 * 502 + 128, 256 * 503] };
        using var frame = RawFile.Open(_folder.Write("black.dng", dng.ToBytes()));
        double[] written = [500.25, 501, 502.5, 503];
        for (int site = 0; site < 4; site++)
            Assert.Equal(written[(site / 2 + frame.Top - 3) % 2 * 2 + (site % 2 + frame.Left - 5) % 2], frame.TagBlackDn[site]);
    }

    [Fact]
    public void A_file_without_a_black_level_tag_has_none()
    {
        using var frame = RawFile.Open(_folder.Write("black.dng", new PlainDng { Black256 = [] }.ToBytes()));
        Assert.Empty(frame.TagBlackDn);
    }

    [Fact]
    public void Masked_areas_are_taken_as_listed_and_leave_the_black_tag_alone()
    {
        var dng = new PlainDng { ActiveArea = [4, 16, 60, 92], MaskedAreas = [4, 2, 60, 14, 0, 16, 4, 92], Black256 = [511 * 256 + 192] };
        using var frame = RawFile.Open(_folder.Write("masked.dng", dng.ToBytes()));
        Assert.Equal([new(4, 2, 60, 14), new(0, 16, 4, 92)], frame.MaskedAreas);
        Assert.Equal([511.75, 511.75, 511.75, 511.75], frame.TagBlackDn);
        AssertSamples(dng, frame);
    }

    [Fact]
    public void The_header_says_what_was_written()
    {
        var header = RawFile.ReadHeader(_folder.Write("header.dng", new PlainDng { BodyNumber = "004217" }.ToBytes()));
        Assert.Equal(("Invented", "Body T"), (header.Make, header.Model));
        Assert.Equal((400.0, 1 / 60.0, 8.0, 35.0), (header.Iso, header.ShutterSeconds, header.FNumber, header.FocalMm));
        Assert.Equal(new DateTime(2026, 11, 25, 5, 30, 7, DateTimeKind.Unspecified), header.TakenAt);
        Assert.Equal(16383, header.WhiteTagDn);
        Assert.False(header.IsLossy);
        Assert.Equal("f3479f54", header.BodyFingerprint); // first 8 digits of SHA-256 of "Invented|Body T|004217", by sha256sum
    }

    [Theory]
    [InlineData(65_535, 102_400, 102_400)]
    [InlineData(65_535, 3_276_800, 3_276_800)]
    [InlineData(51_200, 51_200, 51_200)]
    public void An_ISO_beyond_the_old_tag_is_read_from_the_new_one(uint shortTag, uint longTag, double expected)
    {
        var dng = new PlainDng();
        dng.Exif.RemoveAll(e => e.Tag == 34855);
        dng.Exif.AddRange([(34855, 3, new[] { shortTag }), (34864, 3, new uint[] { 2 }), (34866, 4, new[] { longTag })]);
        Assert.Equal(expected, RawFile.ReadHeader(_folder.Write("iso.dng", dng.ToBytes())).Iso);
    }

    [Fact]
    public void Empty_exposure_tags_are_unknown_and_not_one_second_at_f1()
    {
        var dng = new PlainDng
        {
            Exif = [(33434, 5, new uint[] { 0, 1 }), (33437, 5, new uint[] { 0, 1 }), (34855, 3, new uint[] { 0 }), (36867, 2, "0000:00:00 00:00:00"),
                (37377, 10, new uint[] { 0, 1 }), (37378, 5, new uint[] { 0, 1 }), (37386, 5, new uint[] { 0, 1 })],
        };
        var header = RawFile.ReadHeader(_folder.Write("empty-tags.dng", dng.ToBytes()));
        Assert.Null(header.ShutterSeconds);
        Assert.Null(header.FNumber);
        Assert.Null(header.Iso);
        Assert.Null(header.FocalMm);
        Assert.Null(header.TakenAt);
        Assert.Null(header.BodyFingerprint);
    }

    [Fact]
    public void Zero_apex_tags_alone_are_unknown_too()
    {
        var dng = new PlainDng { Exif = [(37377, 10, new uint[] { 0, 1 }), (37378, 5, new uint[] { 0, 1 })] };
        var header = RawFile.ReadHeader(_folder.Write("apex.dng", dng.ToBytes()));
        Assert.Null(header.ShutterSeconds);
        Assert.Null(header.FNumber);
    }

    [Fact]
    public void A_true_second_at_f1_stays_what_it_is()
    {
        var dng = new PlainDng { Exif = [(33434, 5, new uint[] { 1, 1 }), (33437, 5, new uint[] { 1, 1 })] };
        var header = RawFile.ReadHeader(_folder.Write("one.dng", dng.ToBytes()));
        Assert.Equal((1.0, 1.0), (header.ShutterSeconds, header.FNumber));
    }

    [Fact]
    public void Apex_tags_serve_where_the_plain_ones_are_missing()
    {
        var dng = new PlainDng { Exif = [(37377, 10, new uint[] { 6, 1 }), (37378, 5, new uint[] { 6, 1 })] };
        var header = RawFile.ReadHeader(_folder.Write("apex.dng", dng.ToBytes()));
        Assert.Equal((1 / 64.0, 8.0), (header.ShutterSeconds, header.FNumber));
    }

    [Fact]
    public void A_lossy_DNG_is_known_by_its_compression_number() =>
        Assert.True(RawFile.ReadHeader(_folder.Write("lossy.dng", new PlainDng { Compression = 34892, Cell = [] }.ToBytes())).IsLossy);

    [Theory]
    [InlineData("with spaces.dng")]
    [InlineData("Brackenhush Wood – größte Fälle, été.dng")]
    [InlineData("two\nlines.dng")]
    [InlineData("'quotes\" and \\ strokes.dng")]
    public void Any_file_name_opens(string name)
    {
        string path = _folder.Write(name, new PlainDng().ToBytes());
        Assert.Equal(path, RawFile.ReadHeader(path).File);
        using var frame = RawFile.Open(path);
        Assert.Equal(96, frame.Width);
    }

    [Fact]
    public void Samples_are_gone_once_the_frame_is_disposed()
    {
        var frame = RawFile.Open(_folder.Write("frame.dng", new PlainDng().ToBytes()));
        frame.Dispose();
        Assert.Throws<ObjectDisposedException>(() => frame.Row(0).Length);
        frame.Dispose();
    }

    private static void AssertSamples(PlainDng dng, Leafstop.Raw.Frames.MosaicFrame frame)
    {
        var samples = frame.Samples.Span;
        for (int y = 0; y < dng.RawHeight; y++)
            for (int x = 0; x < dng.RawWidth; x++)
                if (samples[y * frame.Stride + x] != PlainDng.SampleAt(x, y))
                    Assert.Fail($"Sample {x}, {y} is {samples[y * frame.Stride + x]}, written {PlainDng.SampleAt(x, y)}.");
    }
}
