using System.Collections.Immutable;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;

namespace Leafstop.Look.Plan;

/// <summary>Everything that is told about the light of a day.</summary>
public sealed record LightAnswer
{
    /// <summary>The sun's day.</summary>
    public required SunDay Day { get; init; }

    /// <summary>Name of the kept place; null when the place was typed.</summary>
    public required string? Kept { get; init; }

    /// <summary>The sky that was asked for.</summary>
    public required SkyConditions Conditions { get; init; }

    /// <summary>The light over the span asked for.</summary>
    public required LightCurve Curve { get; init; }

    /// <summary>The one time asked for; null for a table.</summary>
    public required LightEstimate? Moment { get; init; }

    /// <summary>Rows of the table.</summary>
    public required IReadOnlyList<LightEstimate> Rows { get; init; }

    /// <summary>The light waited for; null when none was asked.</summary>
    public required ExposureValue? Wanted { get; init; }

    /// <summary>When it is passed.</summary>
    public required ImmutableArray<LightCrossing> Passes { get; init; }

    /// <summary>Events of the day.</summary>
    public ImmutableArray<SunEvent> Events => Day.Events(Conditions.SkyLine);

    /// <summary>True when direct sun may reach the spot during the span.</summary>
    public bool SunShows => Rows.Any(r => r.Sun.Altitude > SkyLine.RiseAltitude && r.Chain.DiscShare > 0 && r.Chain.SkyShare < 1);

    /// <summary>Lit share of the moon at noon of the day, 0 to 1.</summary>
    public double MoonLit => MoonPosition.At(Day.Start + ((Day.End - Day.Start) / 2), Day.Place).LitShare;

    /// <summary>When the moon passes the horizon on the day.</summary>
    public ImmutableArray<HeightCrossing> MoonPasses => MoonPosition.RiseAndSet(Day.Start, Day.End, Day.Place);
}
