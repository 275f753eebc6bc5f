using Leafstop.Core.Card;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Storage.Cameras;

namespace Leafstop.Storage.Tests.Cameras;

public sealed class CameraStoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private CameraStore Store => new(_folder.File);

    public void Dispose() => _folder.Dispose();

    // Derived: round trip.
    [Fact]
    public void What_is_kept_comes_back_the_same()
    {
        KeptMeasurement measured = Measurements.At(Measurements.Morning);
        Store.Keep("Body A", [measured]);
        KeptCamera kept = Store.Find("Body A")!;
        Assert.True(measured.SaysTheSameAs(kept.Newest!));
        Assert.Equal(3.052, kept.Newest!.Levels[0].GainElectronsPerDn!.Value.Value);
        Assert.Equal(Math.Log2(50000 / 3.6), kept.Newest!.Levels[0].DynamicRangeStops!.Value, 1e-12);
        Assert.Null(kept.Newest!.Levels[3].GainElectronsPerDn);
    }

    [Fact]
    public void Measuring_again_adds_to_the_history_and_the_newest_speaks()
    {
        Store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        KeepOutcome second = Store.Keep("  body a ", [Measurements.At(Measurements.Morning.AddDays(30))]);
        Assert.Equal(new KeepOutcome("Body A", Added: 1, AlreadyThere: 0, History: 2), second);
        KeptCamera kept = Assert.Single(Store.List());
        Assert.Equal([Measurements.Morning, Measurements.Morning.AddDays(30)], kept.Measurements.Select(m => m.MeasuredAt));
        Assert.Equal(Measurements.Morning.AddDays(30), kept.Newest!.MeasuredAt);
    }

    [Fact]
    public void The_same_measurement_twice_is_kept_once()
    {
        Store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        KeepOutcome again = Store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Assert.Equal((0, 1, 1), (again.Added, again.AlreadyThere, again.History));
    }

    [Theory]
    [InlineData("Body B", "3f2a")]
    [InlineData("Body A", "9999")]
    public void Another_body_is_never_mixed_into_a_camera(string model, string fingerprint)
    {
        Store.Keep("Mine", [Measurements.At(Measurements.Morning)]);
        var refused = Assert.Throws<ArgumentException>(() => Store.Keep("MINE", [Measurements.At(Measurements.Morning.AddDays(1), model, fingerprint)]));
        Assert.Contains("another body", refused.Message, StringComparison.Ordinal);
        Assert.Single(Store.Find("mine")!.Measurements);
    }

    [Fact]
    public void Forgetting_removes_a_camera_with_its_history_and_no_other()
    {
        Store.Keep("Mine", [Measurements.At(Measurements.Morning), Measurements.At(Measurements.Morning.AddDays(1))]);
        Store.Keep("Other", [Measurements.At(Measurements.Morning)]);
        Assert.Equal(2, Store.Forget(" MINE ")!.Measurements.Length);
        Assert.Equal("Other", Assert.Single(Store.List()).Name);
        Assert.True(Measurements.At(Measurements.Morning).SaysTheSameAs(Store.Find("Other")!.Newest!));
        Assert.Null(Store.Forget("Mine"));
    }

    [Fact]
    public void One_name_is_not_given_to_two_bodies_at_once()
    {
        Assert.Throws<ArgumentException>(() => Store.Keep("Mine", [Measurements.At(Measurements.Morning), Measurements.At(Measurements.Morning.AddDays(1), "Body B", "3f2a")]));
        Assert.Empty(Store.List());
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("a\u0007b")]
    [InlineData("\u202Ea ydoB")]
    public void A_name_that_cannot_be_seen_is_refused(string name)
    {
        Assert.Throws<ArgumentException>(() => Store.Keep(name, [Measurements.At(Measurements.Morning)]));
        Assert.False(_folder.File.Exists);
    }

    [Fact]
    public void Looking_into_an_empty_folder_makes_nothing()
    {
        Assert.Empty(Store.List());
        Assert.Null(Store.Find("Body A"));
        Assert.False(Directory.Exists(_folder.File.Folder));
    }

    [Fact]
    public void The_folder_and_the_file_are_for_their_owner_only()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("permissions of this kind are a Unix matter");
            return;
        }
        Store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        const UnixFileMode others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
            | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(_folder.File.Folder) & others);
        foreach (string file in Directory.GetFiles(_folder.File.Folder))
            Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(file) & others);
    }

    // Each writer opens the file by itself, as separate processes do, and the first of them also makes the tables.
    [Fact]
    public void Many_writers_at_once_lose_nothing()
    {
        const int writers = 8, each = 5;
        Parallel.For(0, writers, new ParallelOptions { MaxDegreeOfParallelism = writers }, w =>
        {
            for (int i = 0; i < each; i++)
                Store.Keep(i % 2 == 0 ? "Body A" : $"Body A {w}", [Measurements.At(Measurements.Morning.AddMinutes(w * 100 + i))]);
        });
        Assert.Equal(writers * each, Store.List().Sum(c => c.Measurements.Length));
        Assert.Equal(1 + writers, Store.List().Length);
    }

    // What a card does not carry stays unknown: no measuring and no judging is made of it.
    [Fact]
    public void A_camera_may_be_known_from_a_card_alone_and_a_measuring_goes_before_it()
    {
        KeptCamera read = new("Body A", []) { Cards = [new KeptCard(Measurements.Morning, Card)] };
        Assert.Equal((0, 1), (Store.Keep("Body A", read).History, Store.List().Length));
        KeptCamera kept = Store.Find("body a")!;
        Assert.Null(kept.Newest);
        Assert.Empty(kept.Judgings);
        Assert.Equal((Card, "Invented Body A"), (kept.NewestCard!.Card, kept.Body.FullModel));
        Assert.Equal(0, Store.Keep("Body A", read).CardsAdded);
        KeptCamera back = CameraFile.Read(CameraFile.Write(kept));
        Assert.Equal(kept.Cards, back.Cards);

        // Another body is refused; the same one, measured, joins its card.
        Assert.Throws<ArgumentException>(() => Store.Keep("Body A", [Measurements.At(Measurements.Morning, "Body B")]));
        Store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Assert.Equal((Measurements.Morning, 1), (Store.Find("Body A")!.Newest!.MeasuredAt, Store.Find("Body A")!.Cards.Length));
        Assert.Throws<ArgumentException>(() => Store.Keep("Body A", new KeptCamera("Body A", []) { Cards = [new KeptCard(Measurements.Morning, Card with { Camera = Card.Camera with { Width = 6000 } })] }));
        Assert.NotNull(Store.Forget("Body A"));
        Assert.Empty(Store.List());
    }

    private static readonly CardText Card = new()
    {
        Name = "Body A",
        Camera = new CameraIdentity { Make = "", Model = "Invented Body A", Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 },
        BaseIso = Iso.FromMarking(100),
        Levels = [new CardLevel(Iso.FromSpeed(100), new NoiseModel(3.052, 3.6, 50000))],
        Print = new PrintCondition(600, 600),
        MadeOn = new DateOnly(2026, 11, 26),
    };
}
