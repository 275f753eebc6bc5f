using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Planning;

/// <summary>How moving water shall look.</summary>
/// <param name="View">Lens, distance and frame.</param>
/// <param name="Speed">Speed of the water across the frame.</param>
/// <param name="Wanted">The shutters that give the wanted look; null when only the streak is to be told.</param>
/// <param name="Name">What was asked, "textured", "a streak of 4 %".</param>
/// <param name="How">How those shutters are known.</param>
public sealed record WaterWish(WaterView View, Speed Speed, LookShutters? Wanted, string Name, HowKnown How)
{
    /// <summary>How far a shutter may lie from a streak that was asked for, stops either way. A rule of thumb: half the step of a water test.</summary>
    public static readonly Stops StreakTolerance = Stops.Of(0.5);

    /// <summary>Streak of a shutter.</summary>
    public Streak Streak(ShutterTime shutter) => View.StreakOf(Speed, shutter);

    /// <summary>True when a shutter gives the look that is wanted, a hair allowed; null when nothing is wanted.</summary>
    public bool? Gives(ShutterTime shutter) => Wanted is { } band
        ? shutter.Seconds >= band.Shortest.Seconds * (1 - Stops.Hair) && shutter.Seconds <= band.Longest.Seconds * (1 + Stops.Hair)
        : null;

    /// <summary>A wish for a streak, half a stop either way.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No streak, or water that does not move across the view.</exception>
    public static WaterWish For(WaterView view, Speed speed, Streak taste)
    {
        ShutterTime exact = view.ShutterFor(taste, speed);
        LookShutters band = new(
            ShutterTime.FromSeconds(exact.Seconds / StreakTolerance.Ratio), ShutterTime.FromSeconds(exact.Seconds * StreakTolerance.Ratio));
        return new WaterWish(view, speed, band, FormattableString.Invariant($"a streak of {taste.Percent:0.##} % of the width"), HowKnown.WorkedOut);
    }

    /// <summary>A wish for a look, a stop either way.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Still water.</exception>
    public static WaterWish For(WaterView view, Speed speed, WaterLook look) =>
        new(view, speed, WaterLooks.ShuttersFor(look, speed, WaterLooks.UsualTexture), WaterLooks.NameOf(look), HowKnown.RuleOfThumb);
}
