using Leafstop.Storage.Cameras;

namespace Leafstop.Storage.Tests.Cameras;

public sealed class CameraFileTests
{
    private static readonly KeptCamera Camera = new("Body A", [Measurements.At(Measurements.Morning), Measurements.At(Measurements.Morning.AddDays(9))]);

    // Derived: round trip.
    [Fact]
    public void What_is_written_reads_back_the_same()
    {
        KeptCamera back = CameraFile.Read(CameraFile.Write(Camera));
        Assert.Equal("Body A", back.Name);
        Assert.All(Camera.Measurements.Zip(back.Measurements), p => Assert.True(p.First.SaysTheSameAs(p.Second)));
        Assert.All(back.Measurements, m => Assert.True(m.IsImported));
    }

    [Fact]
    public void Importing_twice_adds_nothing_the_second_time()
    {
        using TemporaryFolder folder = new();
        CameraStore store = new(folder.File);
        KeptCamera read = CameraFile.Read(CameraFile.Write(Camera));
        Assert.Equal(2, store.Keep(read.Name, read.Measurements).Added);
        Assert.Equal((0, 2), (store.Keep(read.Name, read.Measurements).Added, store.Find("body a")!.Measurements.Length));
    }

    [Theory]
    [InlineData("\"leafstop-camera\"", "\"other\"", "format")]
    [InlineData("\"formatVersion\": 1", "\"formatVersion\": 2", "newer")]
    [InlineData("\"name\": \"Body A\"", "\"name\": \" \"", "name")]
    [InlineData("\"mosaic\": \"2x2\"", "\"mosaic\": 4", "measurements[0].camera.mosaic")]
    [InlineData("\"widthPx\": 8256", "\"widthPx\": 82.5", "camera.widthPx")]
    [InlineData("\"measuredAt\": \"2026-03-01T06:50:12Z\"", "\"measuredAt\": \"yesterday\"", "measuredAt")]
    [InlineData("\"ladder\": \"metered\"", "\"ladder\": \"rope\"", "is one of none, metered")]
    [InlineData("\"iso\": 500", "\"iso\": 0", "measurements[0].levels[1].iso")]
    [InlineData("\"gainElectronsPerDn\": 3.052", "\"gainElectronsPerDn\": -3.052", "levels[0].gainElectronsPerDn")]
    [InlineData("\"gainElectronsPerDn\": 3.052", "\"gainElectronsPerDn\": 9", "gainInterval95")]
    [InlineData("\"gainElectronsPerDn\": 3.052", "\"gainElectronsPerDn\": null", "usable")]
    [InlineData("\"gainElectronsPerDn\": 3.052", "\"gainElectronsPerDn\": 1e999", "levels[0].gainElectronsPerDn")]
    [InlineData("\"usable\": true", "\"usable\": \"yes\"", "usable")]
    [InlineData("\"smoothed\"", "\"dusty\"", "flags")]
    [InlineData("\"readNoiseRatio\": 1.94", "\"readNoiseRatio\": \"1.94\"", "gainSteps[0].readNoiseRatio")]
    public void A_wrong_entry_is_named(string right, string wrong, string told)
    {
        string text = CameraFile.Write(Camera);
        int at = text.IndexOf(right, StringComparison.Ordinal);
        Assert.True(at >= 0);
        string changed = text[..at] + wrong + text[(at + right.Length)..];
        var refused = Assert.Throws<FormatException>(() => CameraFile.Read(changed));
        Assert.Contains(told, refused.Message, StringComparison.Ordinal);
        Assert.EndsWith(".", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("{\"format\":\"leafstop-camera\",\"formatVersion\":1,\"name\":\"x\",\"measurements\":[]}")]
    [InlineData("{\"format\":\"leafstop-camera\",\"formatVersion\":1,\"name\":\"x\",\"measurements\":[3]}")]
    public void What_is_no_camera_file_is_refused(string text) =>
        Assert.Throws<FormatException>(() => CameraFile.Read(text));
}
