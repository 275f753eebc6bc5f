using System.Globalization;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Look.Plan;
using Leafstop.Storage.Places;

namespace Leafstop.Web.Features.Places;

/// <summary>What came in was written wrongly; the message is one sentence for the person.</summary>
internal sealed class PlaceRefusal(string sentence) : Exception(sentence);

/// <summary>Values as they came in. Refusals name them in the words of the page, which a program understands too.</summary>
internal abstract class WrittenWish() : WrittenValues(NumberReading.Marks)
{
    public sealed override IReadOnlyList<string> Texts(string name) => [];

    public sealed override string Example(string name, string value) => $"{Called(name).ToLowerInvariant()} {value.Trim('"')}";

    public sealed override Exception Wrong(string sentence) => new PlaceRefusal(sentence);

    public sealed override Exception NoAnswer(string sentence) => new PlaceRefusal(sentence);

    public sealed override string Called(string name) => name switch
    {
        PlanNames.Latitude => "Latitude",
        PlanNames.Longitude => "Longitude",
        PlanNames.Elevation => "Height above the sea",
        PlanNames.Zone => "Clock",
        PlanNames.Ridge => "Ridge",
        PlanNames.Canopy => "Trees",
        PlanNames.Valley => "Valley walls",
        PlanNames.Basin => "Walls all round",
        PlanNames.Ev => "Light",
        PlanNames.Okta => "Cloud",
        PlanNames.Filters => "Filter",
        PlanNames.At => "Time",
        PlaceReading.Remark => "Remark",
        _ => name,
    };

    /// <summary>Nothing stands where nothing but spaces does.</summary>
    protected static string? Filled(string? text) => string.IsNullOrWhiteSpace(text) ? null : text;
}

/// <summary>A place as it came in, over the one that is kept.</summary>
/// <param name="wish">What came in.</param>
/// <param name="kept">What holds where the wish says nothing; null for a new place.</param>
internal sealed class WrittenPlace(PlaceWish wish, KeptPlace? kept) : WrittenWish
{
    public override string? Text(string name) => Filled(name switch
    {
        PlanNames.Latitude => wish.Lat ?? Number(kept?.Place.Latitude.Degrees),
        PlanNames.Longitude => wish.Lon ?? Number(kept?.Place.Longitude.Degrees),
        PlanNames.Elevation => wish.Elevation ?? Number(kept?.Place.ElevationMetres),
        PlanNames.Zone => wish.Zone ?? kept?.Zone,
        PlanNames.Ridge => wish.Ridge ?? Number(kept?.Ridge?.Degrees),
        PlanNames.Canopy => wish.Canopy ?? kept?.Canopy,
        // Who puts a place into a basin takes it out of its valley.
        PlanNames.Valley => wish.Valley ?? (Filled(wish.Basin) is null ? Wall(LandShape.Valley) : null),
        PlanNames.Basin => wish.Basin ?? (Filled(wish.Valley) is null ? Wall(LandShape.Basin) : null),
        _ => null,
    });

    /// <summary>The place with what came in.</summary>
    /// <exception cref="PlaceRefusal">Not readable, out of range or contradictory.</exception>
    public KeptPlace Read()
    {
        string name = LightReading.Told(this, () => PlaceStore.TidyName(wish.Name ?? kept?.Name ?? ""));
        return KeptPlace.Of(PlaceReading.Read(this, name)) with { Notes = kept?.Notes ?? [] };
    }

    private string? Wall(LandShape shape) => kept is { View: var view } && view.Shape == shape ? Number(view.Wall.Degrees) : null;

    // The degrees went through radians and back: ten decimals are a hundredth of a millimetre.
    private static string? Number(double? value) => value is { } number ? Math.Round(number, 10).ToString("0.##########", CultureInfo.InvariantCulture) : null;
}

/// <summary>A note as it came in.</summary>
internal sealed class WrittenNote(NoteWish wish) : WrittenWish
{
    public override string? Text(string name) => Filled(name switch
    {
        PlanNames.At => wish.At,
        PlanNames.Ev => wish.Ev,
        PlanNames.Okta => wish.Okta,
        PlanNames.Filters => wish.Filter,
        PlaceReading.Remark => wish.Remark,
        _ => null,
    });
}
