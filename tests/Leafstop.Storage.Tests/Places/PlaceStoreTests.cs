using System.Text;
using System.Text.Json;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage.Places;
using NodaTime;

namespace Leafstop.Storage.Tests.Places;

public sealed class PlaceStoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private PlaceStore Store => new(_folder.File);

    private static KeptPlace DimbleSpout => new()
    {
        Name = "Dimble Spout",
        Place = Place.FromDegrees(50.125, -3.25, 180),
        Zone = "Europe/London",
        Ridge = Angle.FromDegrees(15),
        Canopy = "aspen-summer",
        View = SkyView.Valley(Angle.FromDegrees(40)),
    };

    private static LightNote Overcast => new(
        Instant.FromUtc(2026, 10, 17, 7, 40), ExposureValue.Parse("6 2/3"), CloudCover.FromOkta(8), Stops.Of(1.5), "polariser 1.5", "wet rock");

    public void Dispose() => _folder.Dispose();

    // Derived: round trip.
    [Fact]
    public void What_is_kept_comes_back_the_same()
    {
        Store.Add(DimbleSpout);
        Assert.Equal(1, Store.AddNote(" dimble  SPOUT ", Overcast));
        KeptPlace kept = Store.Find("DIMBLE SPOUT")!;
        Assert.Equal(("Dimble Spout", "Europe/London", "aspen-summer"), (kept.Name, kept.Zone, kept.Canopy));
        Assert.Equal(50.125, kept.Place.Latitude.Degrees, 1e-12);
        Assert.Equal((180, 15, LandShape.Valley), (kept.Place.ElevationMetres, Math.Round(kept.Ridge!.Value.Degrees, 9), kept.View.Shape));
        Assert.Equal(40, kept.View.Wall.Degrees, 1e-9);
        Assert.Equal([new NumberedNote(1, Overcast)], kept.Notes);
    }

    [Fact]
    public void Notes_come_oldest_first_and_are_taken_out_by_number()
    {
        Store.Add(DimbleSpout);
        Store.AddNote("Dimble Spout", Overcast);
        Assert.Equal(2, Store.AddNote("Dimble Spout", Overcast with { When = Overcast.When - Duration.FromDays(1), Cloud = null, FilterName = "", FilterStops = Stops.Of(0) }));
        Assert.Equal([2, 1], Store.Find("Dimble Spout")!.Notes.Select(n => n.Number));
        Assert.True(Store.RemoveNote("Dimble Spout", 1));
        Assert.False(Store.RemoveNote("Dimble Spout", 1));
        Assert.Null(Assert.Single(Store.Find("Dimble Spout")!.Notes).Note.Cloud);
    }

    [Fact]
    public void Removing_a_place_takes_its_notes_and_no_other()
    {
        Store.Add(DimbleSpout);
        Store.Add(DimbleSpout with { Name = "Brackenhush Wood" });
        Store.AddNote("Dimble Spout", Overcast);
        Store.AddNote("Brackenhush Wood", Overcast);
        Assert.True(Store.Remove("dimble spout"));
        Assert.False(Store.Remove("dimble spout"));
        KeptPlace left = Assert.Single(Store.List());
        Assert.Equal(("Brackenhush Wood", 1), (left.Name, left.Notes.Length));
        // The same name begins anew.
        Store.Add(DimbleSpout);
        Assert.Empty(Store.Find("Dimble Spout")!.Notes);
    }

    [Fact]
    public void A_name_that_is_kept_is_not_overwritten()
    {
        Store.Add(DimbleSpout);
        Assert.Contains("kept already", Assert.Throws<ArgumentException>(() => Store.Add(DimbleSpout with { Name = "dimble spout" })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Store.Add(DimbleSpout with { Name = " " }));
    }

    [Fact]
    public void A_change_keeps_the_notes_and_never_takes_another_place_s_name()
    {
        Store.Add(DimbleSpout);
        Store.Add(DimbleSpout with { Name = "Brackenhush Wood" });
        Store.AddNote("Dimble Spout", Overcast);
        KeptPlace changed = Store.Change("dimble spout", p => p with { Name = "Dimble  Fall", Ridge = null, Canopy = null, View = SkyView.Basin(Angle.FromDegrees(20)) })!;
        Assert.Equal(("Dimble Fall", null, null, LandShape.Basin), (changed.Name, changed.Ridge, changed.Canopy, changed.View.Shape));
        Assert.Equal([new NumberedNote(1, Overcast)], changed.Notes);
        Assert.Null(Store.Find("Dimble Spout"));
        // The name in another case is still its own.
        Assert.Equal("DIMBLE FALL", Store.Change("Dimble Fall", p => p with { Name = "DIMBLE FALL" })!.Name);
        Assert.Contains("kept already", Assert.Throws<ArgumentException>(() => Store.Change("Dimble Fall", p => p with { Name = "brackenhush wood" })).Message, StringComparison.Ordinal);
        Assert.Equal(2, Store.List().Length);
        Assert.Null(Store.Change("Dimble Spout", p => p));
    }

    [Fact]
    public void A_note_that_was_taken_out_comes_back_under_its_number_and_no_other_loses_its_own()
    {
        Store.Add(DimbleSpout);
        Store.AddNote("Dimble Spout", Overcast);
        Store.AddNote("Dimble Spout", Overcast);
        Store.RemoveNote("Dimble Spout", 1);
        Assert.Equal(1, Store.AddNote("Dimble Spout", Overcast, 1));
        Assert.Equal([1, 2], Store.Find("Dimble Spout")!.Notes.Select(n => n.Number));
        Assert.Contains("another note", Assert.Throws<ArgumentException>(() => Store.AddNote("Dimble Spout", Overcast, 2)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Asking_makes_no_file()
    {
        Assert.Empty(Store.List());
        Assert.Null(Store.Find("Dimble Spout"));
        Assert.Null(Store.AddNote("Dimble Spout", Overcast));
        Assert.False(_folder.File.Exists);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_handed_out_place_keeps_its_whereabouts_unless_told(bool withLocation)
    {
        KeptPlace place = DimbleSpout with { Notes = [new NumberedNote(1, Overcast)] };
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
            PlaceFile.Write(json, place, withLocation);
        using JsonDocument written = JsonDocument.Parse(Encoding.UTF8.GetString(stream.ToArray()));
        Assert.Equal(withLocation, written.RootElement.TryGetProperty("latitudeDeg", out JsonElement latitude));
        if (withLocation)
            Assert.Equal(50.125, latitude.GetDouble());
        JsonElement note = written.RootElement.GetProperty("notes")[0];
        Assert.Equal("2026-10-17T08:40:00+01:00", note.GetProperty("time").GetString());
        Assert.Equal((8, 1.5), (note.GetProperty("okta").GetDouble(), note.GetProperty("filterStops").GetDouble()));
    }
}
