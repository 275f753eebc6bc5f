using System.Buffers.Binary;
using System.Text;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>Files that are not what they should be: each is refused with a sentence that names the trouble, or read and its damage counted.</summary>
public sealed class DamagedFileTests : IDisposable
{
    private readonly ScratchFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void An_empty_file_is_refused() => AssertRefused(_folder.Write("empty.dng", []), "empty (0 bytes)");

    [Fact]
    public void A_missing_file_is_refused() => AssertRefused(Path.Combine(_folder.Root, "gone.dng"), "not there");

    [Fact]
    public void A_folder_is_refused() => AssertRefused(Directory.CreateDirectory(Path.Combine(_folder.Root, "folder.dng")).FullName, "a folder");

    [Fact]
    public void A_text_with_the_name_of_a_raw_is_refused() =>
        AssertRefused(_folder.Write("renamed.dng", Encoding.UTF8.GetBytes(string.Join('\n', Enumerable.Repeat("Dimble Spout, half past six, mist.", 400)))), "not a raw file");

    [Fact]
    public void A_JPEG_with_the_name_of_a_raw_is_refused() => AssertRefused(_folder.Write("renamed.dng", JpegOf(320, 240)), "JPEG picture");

    [Fact]
    public void A_finished_TIFF_picture_is_refused() => AssertRefused(_folder.Write("picture.tif", TiffPicture(64, 48, 3)), "no raw samples");

    [Fact]
    public void A_grey_TIFF_picture_is_refused() => AssertRefused(_folder.Write("grey.tif", TiffPicture(64, 48, 1)), "no raw samples");

    [Fact]
    public void A_DNG_with_mixed_colours_is_refused() =>
        AssertRefused(_folder.Write("linear.dng", new PlainDng { Cell = [], SamplesPerPixel = 3, Black256 = [] }.ToBytes()), "several colour samples");

    [Fact]
    public void A_DNG_of_floating_point_samples_is_refused() =>
        AssertRefused(_folder.Write("float.dng", new PlainDng { SampleFormat = 3, BitsPerSample = 32 }.ToBytes()), "floating-point");

    [Fact]
    public void A_file_without_permission_is_refused()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.IsPrivilegedProcess, "The administrator may read every file.");
        string path = _folder.Write("shut.dng", new PlainDng().ToBytes());
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(path, UnixFileMode.None);
        AssertRefused(path, "no permission");
    }

    [Fact]
    public void A_DNG_cut_short_anywhere_is_refused()
    {
        byte[] whole = new PlainDng().ToBytes();
        for (int cut = 1; cut < whole.Length; cut += whole.Length / 97)
            AssertRefused(_folder.Write("cut.dng", whole[..cut]));
        AssertRefused(_folder.Write("cut.dng", whole[..^1]), "cut short");
    }

    [Fact]
    public void A_real_file_cut_short_anywhere_is_refused_or_its_damage_counted()
    {
        byte[] whole = File.ReadAllBytes(SampleFiles.Raw("canon-s40-0104.crw"));
        for (int part = 1; part < 12; part++)
            AssertRefused(_folder.Write("cut.crw", whole[..(whole.Length / 12 * part)]));
    }

    [Fact]
    public void A_lossy_file_cut_in_its_samples_is_not_taken_for_whole()
    {
        byte[] whole = File.ReadAllBytes(SampleFiles.Raw("kodak-dc120-3908.kdc"));
        string path = _folder.Write("cut.kdc", whole[..(whole.Length * 3 / 4)]);
        try
        {
            using var frame = RawFile.Open(path);
            Assert.NotEqual(0, frame.DataErrors);
        }
        catch (UnreadableRawException e)
        {
            AssertSentence(e, path);
        }
    }

    [Fact]
    public void A_flipped_bit_anywhere_in_the_head_ends_in_a_frame_or_in_a_sentence()
    {
        byte[] whole = new PlainDng { ActiveArea = [3, 5, 60, 90], MaskedAreas = [3, 0, 60, 4] }.ToBytes();
        int head = whole.Length - 96 * 64 * 2;
        for (int bit = 0; bit < head * 8; bit += 7)
        {
            byte[] damaged = [.. whole];
            damaged[bit / 8] ^= (byte)(1 << (bit % 8));
            string path = _folder.Write("flipped.dng", damaged);
            try
            {
                using var frame = RawFile.Open(path);
                Assert.InRange(frame.Left + frame.Width, 1, frame.Stride);
                Assert.True(frame.Samples.Length >= (frame.Top + frame.Height) * frame.Stride);
                Assert.Equal(frame.Width, frame.Row(frame.Height - 1).Length);
                Assert.Equal(frame.Header.Mosaic.Letters.Length, frame.LibraryBlackDn.Length);
                Assert.All(frame.MaskedAreas, a => Assert.True(a.Top >= 0 && a.Left >= 0 && a.Right <= frame.Stride && a.Bottom * frame.Stride <= frame.Samples.Length));
            }
            catch (UnreadableRawException e)
            {
                AssertSentence(e, path);
            }
        }
    }

    private static void AssertRefused(string path, string reason = "")
    {
        var opened = Assert.Throws<UnreadableRawException>(() => RawFile.Open(path).Dispose());
        AssertSentence(opened, path);
        Assert.Contains(reason, opened.Message, StringComparison.Ordinal);
    }

    private static void AssertSentence(UnreadableRawException e, string path)
    {
        Assert.Equal(path, e.File);
        Assert.DoesNotContain(path, e.Message, StringComparison.Ordinal);
        Assert.Matches("^[A-Z].*[.)]$", e.Message);
    }

    private static byte[] JpegOf(int width, int height)
    {
        using var picture = new SkiaSharp.SKBitmap(width, height);
        using var data = picture.Encode(SkiaSharp.SKEncodedImageFormat.Jpeg, 90);
        return data.ToArray();
    }

    // A baseline TIFF 6.0 picture: 8 bits a channel, one strip.
    private static byte[] TiffPicture(int width, int height, int channels)
    {
        (int Tag, int Type, int Count, int Value)[] entries =
        [
            (256, 3, 1, width), (257, 3, 1, height), (258, 3, 1, 8), (259, 3, 1, 1), (262, 3, 1, channels == 3 ? 2 : 1), (273, 4, 1, 200),
            (277, 3, 1, channels), (278, 3, 1, height), (279, 4, 1, width * height * channels),
        ];
        var bytes = new byte[200 + width * height * channels];
        "II*\0"u8.CopyTo(bytes);
        bytes[4] = 8;
        bytes[8] = (byte)entries.Length;
        for (int i = 0; i < entries.Length; i++)
        {
            var entry = bytes.AsSpan(10 + 12 * i);
            BinaryPrimitives.WriteUInt16LittleEndian(entry, (ushort)entries[i].Tag);
            BinaryPrimitives.WriteUInt16LittleEndian(entry[2..], (ushort)entries[i].Type);
            BinaryPrimitives.WriteInt32LittleEndian(entry[4..], entries[i].Count);
            BinaryPrimitives.WriteInt32LittleEndian(entry[8..], entries[i].Value);
        }
        return bytes;
    }
}
