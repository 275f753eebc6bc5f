using System.Collections.Immutable;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Card;

/// <summary>What the tables of a pocket card are worked out for.</summary>
public sealed record CardWish
{
    /// <summary>The lenses, shortest first.</summary>
    public required ImmutableArray<Length> Lenses { get; init; }

    /// <summary>The frame.</summary>
    public required FrameFormat Format { get; init; }

    /// <summary>The streak that the person likes water to draw.</summary>
    public Streak Taste { get; init; } = Streak.FromPercent(4);

    /// <summary>Speed of the water across the frame.</summary>
    public Speed Water { get; init; } = Speed.FromMetresPerSecond(1);

    /// <summary>The swing of the leaves. When not stated a light breeze: 2 cm either way, twice a second (rule of thumb, no source).</summary>
    public SwayingLeaf Leaf { get; init; } = SwayingLeaf.Of(Length.FromCentimetres(2), 2);

    /// <summary>Distances of the tables for water and leaves.</summary>
    public ImmutableArray<Length> Distances { get; init; } = [Length.FromMetres(3), Length.FromMetres(6), Length.FromMetres(12)];

    /// <summary>Apertures of the hyperfocal table, exact powers.</summary>
    public ImmutableArray<FNumber> Apertures { get; init; } = [FNumber.FromMarking(8), FNumber.FromMarking(11), FNumber.FromMarking(16)];

    /// <summary>The camera's screen from corner to corner.</summary>
    public Length Screen { get; init; } = ScreenZoom.UsualDiagonal;
}
