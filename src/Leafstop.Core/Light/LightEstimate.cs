using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The light at a time, with what it was made of.</summary>
public sealed record LightEstimate
{
    /// <summary>When.</summary>
    public required Instant When { get; init; }

    /// <summary>The sun.</summary>
    public required SunPosition Sun { get; init; }

    /// <summary>Light on level ground at the spot, by the model alone.</summary>
    public required Illuminance Illuminance { get; init; }

    /// <summary>EV at ISO 100, without any filter: of a grey card's incident light by the model, or of your own reading carried to this time.</summary>
    public required ExposureValue Light { get; init; }

    /// <summary>How far off it may be, either way.</summary>
    public required Stops Uncertainty { get; init; }

    /// <summary>A rule of thumb from the model; worked out from a reading of your own (measured) when there is a note.</summary>
    public required HowKnown How { get; init; }

    /// <summary>The note it rests on; null when it is the model alone.</summary>
    public LightNote? Note { get; init; }

    /// <summary>Stops by which the model carried the note to this time; null without one.</summary>
    public Stops? CarriedBy { get; init; }

    /// <summary>The steps of the model.</summary>
    public required LightChain Chain { get; init; }
}

/// <summary>The model's steps: light = (sky × view + sun × disc) × canopy.</summary>
/// <param name="OpenClear">Sun and sky on open ground, clear.</param>
/// <param name="CloudFactor">What the cloud leaves of it.</param>
/// <param name="SkyShare">The part of what is left that comes from the sky.</param>
/// <param name="ViewShare">The part of the sky's light that the walls leave.</param>
/// <param name="DiscShare">The part of the sun's disc that stands clear of ridge or walls; 1 without them.</param>
/// <param name="CanopyShare">The part that the trees leave.</param>
public sealed record LightChain(Illuminance OpenClear, double CloudFactor, double SkyShare, double ViewShare, double DiscShare, double CanopyShare)
{
    /// <summary>The product.</summary>
    public Illuminance Total => Illuminance.FromLux(OpenClear.Lux * CloudFactor * ((SkyShare * ViewShare) + ((1 - SkyShare) * DiscShare)) * CanopyShare);
}
