using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Exposure;

/// <summary>How far the brightest thing in the picture, mostly foam, lies below the clip of the raw.</summary>
/// <remarks>Worked out: the clip lies log2(1 / 0.1273) = 2.97 stops over metered mid-grey (EXP-29) unless the camera's own placement was measured; a lower ISO in the
/// same light adds its stops one for one. The camera's own warning comes from its developed picture, not from the raw.</remarks>
public sealed record HighlightRoom
{
    /// <summary>Stops from metered mid-grey to the clip for a saturation-based ISO: 2.97. Source: EXP-29.</summary>
    public static readonly Stops ClipOverMidGrey = Stops.FromRatio(1 / MeteredTone.MidGreyShare);

    private HighlightRoom(Stops placed, Stops left, Iso shot) => (Placed, Left, Shot) = (placed, left, shot);

    /// <summary>Where the highlight was metered, stops over mid-grey.</summary>
    public Stops Placed { get; }

    /// <summary>Stops left to the clip; negative when clipped by so much.</summary>
    public Stops Left { get; }

    /// <summary>The ISO that is shot.</summary>
    public Iso Shot { get; }

    /// <summary>True when the highlight is past the clip.</summary>
    public bool IsClipped => Left.Value < -Stops.Hair;

    /// <summary>The mark at or below which the ISO must be at the same shutter and aperture to keep the highlight.</summary>
    public Iso HighestIso => Iso.FromSpeed(Shot.Speed * Left.Ratio).DialAtOrBelow();

    /// <summary>The whole stops that a bracket must go under to keep it; 0 when nothing is clipped.</summary>
    public int BracketStops => IsClipped ? (int)Math.Ceiling(-Left.Value - Stops.Hair) : 0;

    /// <summary>Room for a highlight of known placement.</summary>
    /// <param name="placed">Stops over metered mid-grey.</param>
    /// <param name="right">The ISO for which the light is metered.</param>
    /// <param name="shot">The ISO that is shot in that light.</param>
    public static HighlightRoom Of(Stops placed, Iso right, Iso shot) => Of(placed, right, shot, ClipOverMidGrey);

    /// <summary>The same with the camera's own placement of mid-grey.</summary>
    /// <param name="placed">Stops over metered mid-grey.</param>
    /// <param name="right">The ISO for which the light is metered.</param>
    /// <param name="shot">The ISO that is shot in that light.</param>
    /// <param name="clipOverMidGrey">Stops from mid-grey to the clip.</param>
    public static HighlightRoom Of(Stops placed, Iso right, Iso shot, Stops clipOverMidGrey) =>
        new(placed, clipOverMidGrey - placed + right.Above(shot), shot);
}
