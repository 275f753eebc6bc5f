using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage.Places;
using NodaTime;

namespace Leafstop.Storage.Tests.Places;

public sealed class PlaceFileTests
{
    private static readonly LightNote Overcast = new(
        Instant.FromUtc(2026, 10, 17, 7, 40), ExposureValue.Parse("6 2/3"), CloudCover.FromOkta(8), Stops.Of(1.5), "polariser 1.5", "wet \"rock\"");

    // Derived: round trip, whatever stands around the place.
    [Theory]
    [InlineData(LandShape.Open)]
    [InlineData(LandShape.Valley)]
    [InlineData(LandShape.Basin)]
    public void A_place_comes_back_from_its_file_as_it_was(LandShape land)
    {
        KeptPlace place = new()
        {
            Name = "Dimble Spout",
            Place = Place.FromDegrees(-50.125, 3.25, 180.5),
            Zone = "UTC+02",
            Ridge = land == LandShape.Open ? null : Angle.FromDegrees(15),
            Canopy = land == LandShape.Open ? null : "aspen-summer",
            View = land switch { LandShape.Valley => SkyView.Valley(Angle.FromDegrees(40)), LandShape.Basin => SkyView.Basin(Angle.FromDegrees(25)), _ => SkyView.Open },
            Notes = [new NumberedNote(4, Overcast with { When = Overcast.When - Duration.FromDays(1), Cloud = null, FilterName = "", FilterStops = default, Remark = "" }), new NumberedNote(2, Overcast)],
        };
        KeptPlace read = PlaceFile.Read(PlaceFile.Write(place, withLocation: true));
        Assert.Equal((place.Name, place.Zone, place.Canopy, place.View.Shape), (read.Name, read.Zone, read.Canopy, read.View.Shape));
        Assert.Equal(place.Place.Latitude.Degrees, read.Place.Latitude.Degrees, 1e-9);
        Assert.Equal(place.Place.Longitude.Degrees, read.Place.Longitude.Degrees, 1e-9);
        Assert.Equal(place.Place.ElevationMetres, read.Place.ElevationMetres);
        Assert.Equal(place.Ridge?.Degrees ?? -1, read.Ridge?.Degrees ?? -1, 1e-9);
        Assert.Equal(place.View.Wall.Degrees, read.View.Wall.Degrees, 1e-9);
        Assert.Equal(place.Notes.AsEnumerable(), read.Notes.AsEnumerable());
    }

    [Fact]
    public void A_file_without_whereabouts_is_refused_with_the_way_out()
    {
        KeptPlace place = new() { Name = "Dimble Spout", Place = Place.FromDegrees(50.1, -3.2), Zone = "UTC" };
        Assert.Contains("--with-location", Assert.Throws<FormatException>(() => PlaceFile.Read(PlaceFile.Write(place, withLocation: false))).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("moss", "no JSON")]
    [InlineData("[]", "no place")]
    [InlineData("{}", "no place")]
    [InlineData("""{"format":"leafstop-camera","name":"Body A"}""", "no place")]
    [InlineData("""{"name":"A","latitudeDeg":91,"longitudeDeg":0,"zone":"UTC"}""", "latitude")]
    [InlineData("""{"name":"A","latitudeDeg":"50","longitudeDeg":0,"zone":"UTC"}""", "\"latitudeDeg\" is a number")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0}""", "zone")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"Nowhere"}""", "time zone")]
    [InlineData("""{"name":" ","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC"}""", "1 to 80 characters")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","ridgeDeg":90}""", "ridge")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","canopy":"jungle"}""", "\"canopy\"")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","valleyDeg":1,"basinDeg":1}""", "both there")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","notes":[{"number":1,"time":"yesterday","meteredEv100":6}]}""", "notes[0].time")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","notes":[{"number":0,"time":"2026-10-17T08:40:00+01:00","meteredEv100":6}]}""", "notes[0].number")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","notes":[{"number":1,"time":"2026-10-17T08:40:00+01:00"}]}""", "notes[0].meteredEv100")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","notes":[{"number":1,"time":"2026-10-17T08:40:00+01:00","meteredEv100":6,"okta":9}]}""", "eighths")]
    [InlineData("""{"name":"A","latitudeDeg":50,"longitudeDeg":0,"zone":"UTC","notes":[{"number":1,"time":"2026-10-17T08:40:00+01:00","meteredEv100":6},{"number":1,"time":"2026-10-17T08:40:00+01:00","meteredEv100":6}]}""", "one number")]
    public void What_is_no_place_is_refused_in_a_sentence(string text, string told)
    {
        string why = Assert.Throws<FormatException>(() => PlaceFile.Read(text)).Message;
        Assert.Contains(told, why, StringComparison.Ordinal);
        Assert.EndsWith(".", why, StringComparison.Ordinal);
    }
}
