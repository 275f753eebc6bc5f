using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>One line of a shot list.</summary>
/// <param name="Iso">ISO to dial.</param>
/// <param name="Shutter">Exposure time, an exact power of a mark.</param>
/// <param name="Frames">Frames of the scene.</param>
/// <param name="CapFrames">Frames with the lens cap on, same settings.</param>
/// <param name="RippleShare">Largest error of light from a lamp that flickers fully, 0 to 1.</param>
public sealed record ShotListLevel(Iso Iso, ShutterTime Shutter, int Frames, int CapFrames, double RippleShare);

/// <summary>The frames to shoot for a bench test: a metered ladder whose shutters the lamp cannot spoil.</summary>
/// <remarks>Common practice, no source: fixed aperture, the shutter halves as ISO doubles, two frames a level so that texture cancels,
/// two cap frames a level for black and read noise.</remarks>
public sealed record ShotList
{
    /// <summary>The ripple that a level may have at most, 0 to 1: 4 % is 0.06 stop, well under the 0.1 stop that the test calls out.</summary>
    public const double RippleAllowed = 0.04;

    /// <summary>ISO 100 to 25 600 by whole stops, with 500 and 640 between, where many sensors change their gain.</summary>
    public static readonly ImmutableArray<double> UsualLevels = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400, 12800, 25600];

    /// <summary>The lamp the list is for; null when it holds under each of them.</summary>
    public required Lamp? Lamp { get; init; }

    /// <summary>The fixed aperture.</summary>
    public required FNumber Aperture { get; init; }

    /// <summary>Levels, lowest ISO first.</summary>
    public required ImmutableArray<ShotListLevel> Levels { get; init; }

    /// <summary>Frames in all, cap frames included.</summary>
    public int TotalFrames => Levels.Sum(l => l.Frames + l.CapFrames);

    /// <summary>Works out the list.</summary>
    /// <param name="lamp">The lamp.</param>
    /// <param name="isos">Levels as dialled, any order, repeats ignored; at least two, spanning at most ten stops.</param>
    /// <exception cref="ArgumentException">Fewer than two levels, or more than the shutter can follow; the message is for the person.</exception>
    public static ShotList For(Lamp lamp, IReadOnlyList<Iso> isos) => For([lamp], isos);

    /// <summary>Works out a list whose shutters no lamp can spoil.</summary>
    /// <param name="isos">As for <see cref="For(Exposure.Lamp, IReadOnlyList{Iso})"/>; at most 8 2/3 stops always fit: from 1/13 on no mark ripples too much under any of the lamps.</param>
    /// <exception cref="ArgumentException">As for <see cref="For(Exposure.Lamp, IReadOnlyList{Iso})"/>.</exception>
    public static ShotList ForAnyLamp(IReadOnlyList<Iso> isos) => For(Enum.GetValues<Lamp>(), isos);

    private static ShotList For(Lamp[] lamps, IReadOnlyList<Iso> isos)
    {
        Iso[] exact = [.. isos.Select(i => Iso.FromMarking(i.Speed)).DistinctBy(i => i.Speed).OrderBy(i => i.Speed)];
        if (exact.Length < 2)
            throw new ArgumentException("A ladder needs at least two different ISOs.", nameof(isos));
        double span = exact[^1].Above(exact[0]).Value;
        // 1/30 is the fastest mark at which common lamps come to rest; from there the shutter lengthens with falling ISO.
        IEnumerable<double> candidates = Marks.Shutters(DialStep.Thirds).All
            .Select(m => m.Exact).Where(t => t >= 1.0 / 32 - Stops.Hair && t * Math.Pow(2, span) <= 32 + 1e-6);
        foreach (double fastest in candidates)
        {
            ShotListLevel[] levels = [.. exact.Select(iso => Level(lamps, iso, fastest * exact[^1].Speed / iso.Speed))];
            if (levels.All(l => l.RippleShare <= RippleAllowed))
                return new ShotList { Lamp = lamps is [var one] ? one : null, Aperture = FNumber.FromMarking(8), Levels = [.. levels] };
        }
        throw new ArgumentException(
            "These ISOs lie further apart than shutters from 1/30 to 30 s can follow in this light: leave out the lowest or the highest.", nameof(isos));
    }

    private static ShotListLevel Level(Lamp[] lamps, Iso iso, double seconds)
    {
        ShutterTime shutter = ShutterTime.FromSeconds(seconds).NearestMark();
        return new ShotListLevel(iso.NearestDial(), shutter, Frames: 2, CapFrames: 2, lamps.Max(l => LampRipple.Share(l, shutter)));
    }
}
