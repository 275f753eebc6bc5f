using System.Collections.Immutable;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Card;

/// <summary>What a card says of one lens.</summary>
/// <param name="FocalLength">The lens.</param>
/// <param name="Water">The exposure that draws the wanted streak, as a mark, for each distance.</param>
/// <param name="Leaves">The longest exposure that holds the leaves, for each distance.</param>
/// <param name="Hyperfocal">Hyperfocal distance for each aperture.</param>
public sealed record CardLens(Length FocalLength, ImmutableArray<ShutterTime> Water, ImmutableArray<HoldingShutter> Leaves, ImmutableArray<SubjectDistance> Hyperfocal);
