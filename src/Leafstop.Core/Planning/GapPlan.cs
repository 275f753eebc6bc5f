using Leafstop.Core.Quantities;

namespace Leafstop.Core.Planning;

/// <summary>Where an ISO lies against the two limits.</summary>
public enum GapVerdict
{
    /// <summary>At or below the clean limit.</summary>
    Clean,

    /// <summary>Above clean, at or below the stretch limit.</summary>
    Stretch,

    /// <summary>Above the stretch limit.</summary>
    Beyond,
}

/// <summary>The ISO that closes a gap, and what it leaves to spare.</summary>
/// <remarks>Worked out: ISO needed = base · 2^gap, the definition of a stop. Spare and verdict use the unrounded ISO, the limits as exact
/// powers of their marks; equal to a limit within <see cref="Stops.Hair"/> is inside.</remarks>
public sealed record GapPlan
{
    /// <summary>Stops under at base ISO.</summary>
    public required Stops Gap { get; init; }

    /// <summary>The ISO needed, unrounded.</summary>
    public required Iso IsoExact { get; init; }

    /// <summary>The ISO as the camera dials it: the nearest third, half-way up.</summary>
    public required Iso IsoDial { get; init; }

    /// <summary>Stops to the clean limit; negative when past it.</summary>
    public required Stops SpareToClean { get; init; }

    /// <summary>Stops to the stretch limit; negative when past it.</summary>
    public required Stops SpareToStretch { get; init; }

    /// <summary>Where the ISO lies.</summary>
    public required GapVerdict Verdict { get; init; }

    /// <summary>The gap between what aperture and shutter ask for and what the meter sees through the filter that is on; positive = under.</summary>
    /// <param name="aperture">The aperture insisted on.</param>
    /// <param name="shutter">The shutter insisted on.</param>
    /// <param name="metered">EV100 as the meter reads it, filters included.</param>
    /// <param name="baseIso">The camera's base ISO.</param>
    public static Stops GapOf(FNumber aperture, ShutterTime shutter, ExposureValue metered, Iso baseIso) =>
        ExposureValue.Of(aperture, shutter, baseIso) - metered;

    /// <summary>Closes a gap by ISO alone.</summary>
    /// <param name="baseIso">The camera's base ISO.</param>
    /// <param name="gap">Stops under at base ISO; negative when there is light to spare, and the ISO then stays arithmetic.</param>
    /// <param name="clean">Clean limit for the print in question.</param>
    /// <param name="stretch">Stretch limit for the same print; not below clean.</param>
    /// <exception cref="ArgumentOutOfRangeException">Stretch lies below clean.</exception>
    public static GapPlan Close(Iso baseIso, Stops gap, Iso clean, Iso stretch)
    {
        if (stretch < clean)
            throw new ArgumentOutOfRangeException(nameof(stretch), stretch.Speed, "A stretch limit is not below the clean limit.");
        Iso exact = Iso.FromSpeed(baseIso.Speed * gap.Ratio);
        Stops toClean = Iso.FromMarking(clean.Speed).Above(exact);
        Stops toStretch = Iso.FromMarking(stretch.Speed).Above(exact);
        return new GapPlan
        {
            Gap = gap,
            IsoExact = exact,
            IsoDial = exact.NearestDial(),
            SpareToClean = toClean,
            SpareToStretch = toStretch,
            Verdict = toClean.Value >= -Stops.Hair ? GapVerdict.Clean
                : toStretch.Value >= -Stops.Hair ? GapVerdict.Stretch : GapVerdict.Beyond,
        };
    }
}
