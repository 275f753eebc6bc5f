using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Planning;

/// <summary>The recurring scenes of the job, with the limits of its invented Body A: clean 800, stretch 3200, 60 cm seen from 60 cm.</summary>
internal static class Scenes
{
    public static readonly PrintCondition Usual = new(600, 600);

    public static readonly NoiseLimits Limits = NoiseLimits.Of(
        Iso.FromSpeed(800), Iso.FromSpeed(3200), new LimitTags("Body A", Usual, ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given);

    public static readonly Speed WaterSpeed = Speed.FromMetresPerSecond(1);

    /// <summary>Dimble Spout: f/11, 1/4, the meter sees EV 6 2/3 through the polariser.</summary>
    public static Scene DimbleSpout => Of("f/11", "1/4", "6 2/3");

    /// <summary>Brackenhush Wood: f/8, 1/60, the meter sees EV 9 through the polariser.</summary>
    public static Scene BrackenhushWood => Of("f/8", "1/60", "9");

    /// <summary>Leaves 10 m away in front of 50 mm, 25 cm/s at the height of their swing.</summary>
    public static LeavesWish Leaves => LeavesAt(0.25);

    /// <summary>Water 6 m away in front of 35 mm.</summary>
    public static WaterView Water => WaterView.Of(Lens.Of(Length.FromMillimetres(35)), SubjectDistance.FromMetres(6), FrameFormat.FullFrame);

    public static LeavesWish LeavesAt(double metresPerSecond)
    {
        var speed = Speed.FromMetresPerSecond(metresPerSecond);
        return new LeavesWish(
            MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.FromMetres(10)), new SpeedBand(speed, speed, speed), FrameFormat.FullFrame, HowKnown.Measured);
    }

    public static DepthWish DepthFrom(double nearMetres) => new(
        DepthDemand.Of(Lens.Of(Length.FromMillimetres(24)), SubjectDistance.FromMetres(nearMetres), SubjectDistance.Infinity), FrameFormat.FullFrame);

    public static Scene Of(string aperture, string shutter, string light) => new()
    {
        Aperture = FNumber.Parse(aperture),
        Shutter = ShutterTime.Parse(shutter),
        Metered = ExposureValue.Parse(light),
        BaseIso = Iso.FromSpeed(100),
        FiltersOn = new FilterSet([Filter.Polariser(Stops.Of(1.5))]),
        Limits = Limits,
    };
}
