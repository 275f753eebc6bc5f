using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Motion;

/// <summary>Moving water as one lens on one format sees it.</summary>
/// <remarks>Derived from <see cref="MovingSubject"/>: streak = speed × time × magnification / width of the frame (B-04). Flow pulses and differs across a fall:
/// shoot one frame either side of any answer.</remarks>
/// <param name="Water">Lens, distance and direction of the water.</param>
/// <param name="Format">The frame as it is held: a streak is counted against its width, whichever way the water runs.</param>
public sealed record WaterView(MovingSubject Water, FrameFormat Format)
{
    /// <summary>Takes water that runs straight across the view or straight down it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The water is not beyond the focal length.</exception>
    public static WaterView Of(Lens lens, SubjectDistance distance, FrameFormat format) => new(MovingSubject.Of(lens, distance), format);

    /// <summary>The streak that water of a speed draws in an exposure.</summary>
    public Streak StreakOf(Speed water, ShutterTime shutter) =>
        Streak.FromShare(Water.Smear(water, shutter).Millimetres / Format.Width.Millimetres);

    /// <summary>The exposure that draws a streak: streak × width / (speed × magnification).</summary>
    /// <param name="taste">Above zero.</param>
    /// <param name="water">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No streak, no speed, or water whose motion does not show.</exception>
    public ShutterTime ShutterFor(Streak taste, Speed water)
    {
        ThrowIfNothing(taste);
        double imageSpeed = Water.ImageSpeed(water).MetresPerSecond;
        return imageSpeed > 0
            ? ShutterTime.FromSeconds(taste.ShareOfWidth * Format.Width.Metres / imageSpeed)
            : throw new ArgumentOutOfRangeException(nameof(water), water.MetresPerSecond, "Water that does not move across the view draws no streak at any time.");
    }

    /// <summary>The speed of the water from a streak measured in a test frame.</summary>
    /// <param name="seen">The streak in the frame, above zero.</param>
    /// <param name="shutter">Exposure of the frame.</param>
    /// <exception cref="ArgumentOutOfRangeException">No streak, or motion that does not show.</exception>
    public Speed SpeedFrom(Streak seen, ShutterTime shutter)
    {
        ThrowIfNothing(seen);
        return Water.Scale > 0
            ? Speed.FromMetresPerSecond(seen.ShareOfWidth * Format.Width.Metres / (Water.Scale * shutter.Seconds))
            : throw new ArgumentOutOfRangeException(nameof(seen), seen.Percent, "Motion towards the camera or at infinity draws no streak.");
    }

    /// <summary>The exposure that draws the same streak in another view of the same water: the speed cancels.</summary>
    /// <param name="shutter">Exposure in this view.</param>
    /// <param name="other">The other lens, distance, direction or format.</param>
    /// <exception cref="ArgumentOutOfRangeException">The motion does not show in one of the views.</exception>
    public StreakConversion ConvertTo(WaterView other, ShutterTime shutter)
    {
        double here = Water.Scale / Format.Width.Millimetres, there = other.Water.Scale / other.Format.Width.Millimetres;
        return here > 0 && there > 0
            ? new StreakConversion(shutter, ShutterTime.FromSeconds(shutter.Seconds * here / there))
            : throw new ArgumentOutOfRangeException(nameof(other), other.Water.Distance.ToDisplay(), "Motion towards the camera or at infinity draws no streak to convert.");
    }

    private static void ThrowIfNothing(Streak streak)
    {
        if (streak.ShareOfWidth <= 0)
            throw new ArgumentOutOfRangeException(nameof(streak), streak.Percent, "A streak to shoot for is above zero.");
    }
}
