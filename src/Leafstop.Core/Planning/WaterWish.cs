using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>How moving water shall look.</summary>
/// <param name="Subject">Lens and distance of the water.</param>
/// <param name="Speed">Its speed across the frame.</param>
/// <param name="Format">The frame.</param>
/// <param name="Wanted">The shutters that give the wanted look; null when only the streak is to be told.</param>
/// <param name="Name">What was asked, "textured", "a streak of 4 %".</param>
/// <param name="How">How those shutters are known.</param>
public sealed record WaterWish(MovingSubject Subject, Speed Speed, FrameFormat Format, ShutterBand? Wanted, string Name, HowKnown How)
{
    /// <summary>How far a shutter may lie from a streak that was asked for, stops either way. A rule of thumb: half the step of a water test.</summary>
    public static readonly Stops StreakTolerance = Stops.Of(0.5);

    /// <summary>Length of a streak as a share of the frame's width: v · m · t / width (A-16, B-01).</summary>
    public double Streak(ShutterTime shutter) => Subject.Smear(Speed, shutter).Millimetres / Format.Width.Millimetres;

    /// <summary>A wish for a streak of some share of the frame's width, half a stop either way.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The streak is not above zero, or the water does not move across the frame.</exception>
    public static WaterWish ForStreak(MovingSubject subject, Speed speed, FrameFormat format, double streak)
    {
        if (!(streak is > 0 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(streak), streak, "A streak is a share of the frame's width above zero.");
        double perSecond = subject.ImageSpeed(speed).MetresPerSecond;
        if (perSecond <= 0)
            throw new ArgumentOutOfRangeException(nameof(speed), speed.MetresPerSecond, "Water that does not move makes no streak.");
        var exact = ShutterTime.FromSeconds(streak * format.Width.Metres / perSecond);
        return new WaterWish(subject, speed, format, ShutterBand.Around(exact, StreakTolerance), FormattableString.Invariant($"a streak of {streak * 100:0.##} %"), HowKnown.WorkedOut);
    }
}

/// <summary>Shutters from one to another.</summary>
/// <param name="Shortest">Shortest.</param>
/// <param name="Longest">Longest, not below <paramref name="Shortest"/>.</param>
public sealed record ShutterBand(ShutterTime Shortest, ShutterTime Longest)
{
    /// <summary>The middle in stops.</summary>
    public ShutterTime Middle => ShutterTime.FromSeconds(Math.Sqrt(Shortest.Seconds * Longest.Seconds));

    /// <summary>So many stops either way.</summary>
    public static ShutterBand Around(ShutterTime middle, Stops either) =>
        new(ShutterTime.FromSeconds(middle.Seconds / either.Ratio), ShutterTime.FromSeconds(middle.Seconds * either.Ratio));

    /// <summary>True inside, a hair allowed.</summary>
    public bool Holds(ShutterTime shutter) =>
        shutter.Seconds >= Shortest.Seconds * (1 - Stops.Hair) && shutter.Seconds <= Longest.Seconds * (1 + Stops.Hair);
}
