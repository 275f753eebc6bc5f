using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>A place with what stands around it and what was metered there.</summary>
/// <param name="Name">As the person named it.</param>
/// <param name="Place">Where.</param>
/// <param name="Zone">Its clock, as <see cref="ZoneName"/> reads it.</param>
/// <param name="Ridge">Height of the ridge as it is seen; null without one.</param>
/// <param name="Canopy">Trees as <see cref="Light.Canopy"/> reads them; null without any.</param>
/// <param name="View">Walls of a valley or basin.</param>
/// <param name="Notes">What was metered there, oldest first.</param>
public sealed record KnownPlace(string Name, Place Place, string Zone, Angle? Ridge, string? Canopy, SkyView View, ImmutableArray<LightNote> Notes);
