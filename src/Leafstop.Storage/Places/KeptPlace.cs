using System.Collections.Immutable;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;

namespace Leafstop.Storage.Places;

/// <summary>A place as it is kept: where it is, what stands around it, and the light that was metered there.</summary>
public sealed record KeptPlace
{
    /// <summary>The name the person gave, trimmed.</summary>
    public required string Name { get; init; }

    /// <summary>Where.</summary>
    public required Place Place { get; init; }

    /// <summary>Its time zone as <see cref="ZoneName"/> reads it.</summary>
    public required string Zone { get; init; }

    /// <summary>Height of the ridge as it is seen; null without one.</summary>
    public Angle? Ridge { get; init; }

    /// <summary>Trees as <see cref="Canopy"/> reads them; null without any.</summary>
    public string? Canopy { get; init; }

    /// <summary>Walls of a valley or basin.</summary>
    public SkyView View { get; init; } = SkyView.Open;

    /// <summary>What was metered there, oldest first.</summary>
    public ImmutableArray<NumberedNote> Notes { get; init; } = [];

    /// <summary>A place as it was read, with none of its notes.</summary>
    public static KeptPlace Of(KnownPlace place) => new()
    {
        Name = place.Name,
        Place = place.Place,
        Zone = place.Zone,
        Ridge = place.Ridge,
        Canopy = place.Canopy,
        View = place.View,
    };

    /// <summary>What the light is worked out with.</summary>
    public KnownPlace Known => new(Name, Place, Zone, Ridge, Canopy, View, [.. Notes.Select(n => n.Note)]);
}

/// <summary>A note with its number in its place.</summary>
/// <param name="Number">1 and up.</param>
/// <param name="Note">The note.</param>
public sealed record NumberedNote(int Number, LightNote Note);
