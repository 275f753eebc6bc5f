using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>What is asked of a plan: exposure insisted on, light, limits, print, and the wishes for depth, water and leaves.</summary>
/// <remarks>Only aperture, shutter, light and base ISO are needed; each thing that is not stated leaves out the answers that need it.</remarks>
public sealed record Scene
{
    /// <summary>The aperture insisted on.</summary>
    public required FNumber Aperture { get; init; }

    /// <summary>The shutter insisted on.</summary>
    public required ShutterTime Shutter { get; init; }

    /// <summary>EV100 as the meter reads it through every filter of <see cref="FiltersOn"/>.</summary>
    public required ExposureValue Metered { get; init; }

    /// <summary>The camera's base ISO.</summary>
    public required Iso BaseIso { get; init; }

    /// <summary>Filters that were on when it was metered: seen by the meter, never counted again.</summary>
    public FilterSet FiltersOn { get; init; } = FilterSet.None;

    /// <summary>Filters fitted since: they take their light now.</summary>
    public FilterSet FiltersAfter { get; init; } = FilterSet.None;

    /// <summary>The person's limits; null when none are known.</summary>
    public NoiseLimits? Limits { get; init; }

    /// <summary>The print that is asked; null for the print of the limits.</summary>
    public PrintCondition? Print { get; init; }

    /// <summary>The tone that the limits are asked for; null for that of the limits.</summary>
    public ToneKind? Tone { get; init; }

    /// <summary>Stops by which shadows will be opened at home, zero or more.</summary>
    public Stops Lift { get; init; }

    /// <summary>Share of the frame's width that is kept and printed at the full size, above 0, at most 1.</summary>
    public double WidthKept { get; init; } = 1;

    /// <summary>Frames that are averaged where nothing moves, 1 or more.</summary>
    public int FramesAveraged { get; init; } = 1;

    /// <summary>Where the brightest foam was metered, stops over mid-grey; null when not stated.</summary>
    public Stops? FoamOverMidGrey { get; init; }

    /// <summary>Stops from mid-grey to the clip, 2.97 unless the camera's own placement was measured.</summary>
    public Stops ClipOverMidGrey { get; init; } = HighlightRoom.ClipOverMidGrey;

    /// <summary>What must be sharp; null when not stated.</summary>
    public DepthWish? Depth { get; init; }

    /// <summary>How the water shall look; null when not stated.</summary>
    public WaterWish? Water { get; init; }

    /// <summary>Leaves that shall be still; null when not stated.</summary>
    public LeavesWish? Leaves { get; init; }

    /// <summary>A trial in which frames were marked keep or no for their leaves; null when there was none.</summary>
    public KeeperTrial? Trial { get; init; }

    /// <summary>Temperature of the sensor, °C, for long exposures; null when not stated.</summary>
    public double? SensorCelsius { get; init; }

    /// <summary>How far off the light may be, either way; null for a meter reading, which is taken as it is.</summary>
    public Stops? LightUncertainty { get; init; }

    /// <summary>True when the sun stands over the horizon, false when not, null when it is not known.</summary>
    public bool? SunIsUp { get; init; }

    /// <summary>The light to come, earliest first, as the change from now; empty when it is not known.</summary>
    public ImmutableArray<LightAhead> Ahead { get; init; } = [];

    /// <summary>The print that the plan is for; null when neither print nor limits are known.</summary>
    public PrintCondition? PrintAsked => Print ?? Limits?.Tags.Print;

    /// <summary>The limits for the print and the tone that are asked, or why there are none; null when none are known at all.</summary>
    /// <remarks>Lift, crop and averaging are not in it: they count against the ISO, see <see cref="GapAnswer.Effective"/>.</remarks>
    public LimitAnswer? LimitsAsked => Limits?.ForUse(new LimitUse { Print = Print, Tone = Tone });

    /// <summary>The light that reaches the sensor.</summary>
    public ExposureValue Light => Metered - FiltersAfter.Total;
}

/// <summary>The light at a later time.</summary>
/// <param name="At">When.</param>
/// <param name="Change">Stops more than now; negative when it fades.</param>
public sealed record LightAhead(DateTimeOffset At, Stops Change);
