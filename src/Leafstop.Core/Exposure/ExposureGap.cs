using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>The gap: stops under at base ISO for the aperture and shutter that are insisted on.</summary>
/// <remarks>Worked out from the definition of a stop and EXP-02. The light is what the meter sees through the filter that is on, so that filter is never
/// counted again.</remarks>
public static class ExposureGap
{
    /// <summary>The gap between what aperture and shutter ask for and the light that reaches the sensor; positive = under.</summary>
    /// <param name="aperture">The aperture insisted on.</param>
    /// <param name="shutter">The shutter insisted on.</param>
    /// <param name="light">EV100 through all filters.</param>
    /// <param name="baseIso">The camera's base ISO.</param>
    public static Stops Of(FNumber aperture, ShutterTime shutter, ExposureValue light, Iso baseIso) =>
        ExposureValue.Of(aperture, shutter, baseIso) - light;

    /// <summary>The light that a needle "so many stops under" tells of, at that aperture, shutter and ISO.</summary>
    public static ExposureValue LightWhen(Stops under, FNumber aperture, ShutterTime shutter, Iso iso) =>
        ExposureValue.Of(aperture, shutter, iso) - under;

    /// <summary>The ISO that closes a gap: base · 2^gap. A negative gap asks for less than base; the number stays arithmetic.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The gap is so wide that no number can hold the ISO.</exception>
    public static Iso Closing(Iso baseIso, Stops gap) => Iso.FromSpeed(baseIso.Speed * gap.Ratio);
}
