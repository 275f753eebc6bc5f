using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Strips;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Storage.Tests.Strips;

public sealed class StripStoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private StripStore Store => new(_folder.File);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_strip_comes_back_with_the_same_key()
    {
        Assert.Equal(1, Store.NextNumber());
        KeptStrip made = Strip(1, 600);
        Store.Keep(made);
        KeptStrip kept = Store.Find(1)!;
        Assert.True(made.ShowsTheSameAs(kept));
        Assert.Equal((made.Camera, made.MadeAt), (kept.Camera, kept.MadeAt));
        Assert.Equal(made.Codes().Codes, kept.Codes().Codes);
        Assert.Equal(2, Store.NextNumber());
        Assert.Equal([1L], Store.Numbers());
        Assert.Null(Store.Find(2));
    }

    [Fact]
    public void The_same_strip_is_remembered_once_and_another_under_its_number_is_refused()
    {
        Store.Keep(Strip(7, 600));
        Store.Keep(Strip(7, 600));
        Assert.Equal([7L], Store.Numbers());
        ArgumentException refused = Assert.Throws<ArgumentException>(() => Store.Keep(Strip(7, 300)));
        Assert.Contains("Strip 7", refused.Message, StringComparison.Ordinal);
        Assert.Equal(600, Store.Find(7)!.Tags.Print.WidthMm);
    }

    private static KeptStrip Strip(long number, double widthMm) => new(
        number, "Body A", Measurements.Morning, [.. ((double[])[100, 400, 800, 1600, 3200]).Select(i => new LadderIso(Iso.FromMarking(i), true))], 2,
        new LimitTags("Body A, 14-bit raw", new PrintCondition(widthMm, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(3 + 2 / 3.0)));
}
