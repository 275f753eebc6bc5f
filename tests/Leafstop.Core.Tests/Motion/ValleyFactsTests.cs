using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Motion;

/// <summary>What landscape photographers find in wooded valleys at base ISO 160, against light and motion joined.</summary>
/// <remarks>Facts of the trade: common practice, no source. The light model is good to ±1.5 stops under trees, so landing inside half a stop shows that
/// plausible inputs lead there, not that the model is that good. Sun altitude is airless; a clear or part-clear sky; a valley's walls hide the sun.</remarks>
public sealed class ValleyFactsTests
{
    private static readonly Iso Base = Iso.FromMarking(160);
    private static readonly JudgedPrint Print = JudgedPrint.Of(FrameFormat.FullFrame, Length.FromCentimetres(60), Length.FromCentimetres(60));

    // Common practice, no source; exact by the marks: 640 lies 2 stops above 160, 1600 3 1/3.
    [Fact]
    public void From_base_160_the_dial_reaches_640_in_two_stops_and_1600_in_three_and_a_third()
    {
        Assert.Equal(2, Iso.FromMarking(640).Above(Base).Value, 1e-12);
        Assert.Equal(10 / 3.0, Iso.FromMarking(1600).Above(Base).Value, 1e-12);
    }

    // Common practice, no source: falls in a wooded valley around sunrise or sunset, f/8 to f/11, a texture shutter: 2 to 2 1/2 stops under.
    // Columns: sun's height °, cloud in eighths, canopy, wall of the valley °, aperture; then the water: focal length mm, distance m, speed m/s.
    // The shutter is the nearest mark to a streak of 4 % of the width. Under a closed sky the sun stands at 10°, about an hour from the horizon; at 7° the
    // same valley is 3 stops under.
    [Theory]
    [InlineData(3, 0, "broadleaf-summer", 30, 11, 35, 6, 1)]
    [InlineData(4, 5, "broadleaf-summer", 30, 11, 35, 6, 1)]
    [InlineData(10, 8, "broadleaf-summer", 30, 11, 35, 6, 1)]
    [InlineData(3, 0, "aspen-summer", 20, 8, 35, 6, 2)]
    [InlineData(2.5, 0, "mixed-autumn", 30, 11, 35, 6, 1)]
    public void Falls_with_texture_come_out_two_to_two_and_a_half_under(
        double sun, double okta, string canopy, double wall, double aperture, double focalMm, double metres, double speed)
    {
        var view = WaterView.Of(Lens.Of(Length.FromMillimetres(focalMm)), SubjectDistance.FromMetres(metres), FrameFormat.FullFrame);
        ShutterTime shutter = view.ShutterFor(Streak.FromPercent(4), Speed.FromMetresPerSecond(speed)).NearestMark();
        Stops under = Under(sun, okta, canopy, wall, aperture, shutter);
        Assert.True(under.Value is >= 2 and <= 2.5, $"{under.Value} under at {shutter.ToDisplay()}");
    }

    // The same fall by its look: water that fell half a metre, textured, the middle of the band.
    [Fact]
    public void A_low_fall_by_its_look_comes_out_in_the_same_place()
    {
        ShutterTime shutter = WaterLooks.ShuttersFor(WaterLook.Textured, FallingWater.AtFoot(Length.FromMetres(0.5)).Best, WaterLooks.UsualTexture).Middle.NearestMark();
        Stops under = Under(3, 0, "broadleaf-summer", 30, 8, shutter);
        Assert.True(under.Value is >= 2 and <= 2.5, $"{under.Value} under at {shutter.ToDisplay()}");
    }

    // Common practice, no source: leaves held still in wind, 2 1/2 to 3 stops under. The same light; then wind in the open m/s, 5 cm leaves in an old stand
    // with open trunk space, 50 mm lens, distance m. The shutter is the longest mark that holds the best guess of the leaf's speed on the 60 cm print.
    [Theory]
    [InlineData(3, 0, "broadleaf-summer", 30, 8, 3, 5)]
    [InlineData(4, 5, "broadleaf-summer", 30, 8, 3, 5)]
    [InlineData(2.5, 0, "mixed-autumn", 30, 8, 3, 5)]
    [InlineData(10, 8, "broadleaf-summer", 30, 8, 3, 5)]
    public void Leaves_held_still_come_out_two_and_a_half_to_three_under(
        double sun, double okta, string canopy, double wall, double aperture, double wind, double metres)
    {
        SpeedBand atLeaf = WindAtLeaf.From(Speed.FromMetresPerSecond(wind), WindSite.Stand);
        SpeedBand leaf = LeafSpeed.From(atLeaf, Length.FromCentimetres(5));
        ShutterTime shutter = MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.FromMetres(metres))
            .LongestShutter(leaf.Best, Print.CircleOfConfusion).Mark()!;
        Stops under = Under(sun, okta, canopy, wall, aperture, shutter);
        Assert.True(under.Value is >= 2.5 and <= 3, $"{under.Value} under at {shutter.ToDisplay()}");
    }

    private static Stops Under(double sun, double okta, string canopy, double wall, double aperture, ShutterTime shutter)
    {
        Assert.True(Canopy.TryParse(canopy, out Canopy trees, out string why), why);
        var conditions = new SkyConditions
        {
            Cloud = CloudCover.FromOkta(okta),
            Canopy = trees,
            View = SkyView.Valley(Angle.FromDegrees(wall)),
            SkyLine = SkyLine.Level.WithRidge(Angle.FromDegrees(wall)),
        };
        ExposureValue light = IncidentMeter.Usual.Reads(SkyLight.Chain(Angle.FromDegrees(sun), conditions).Total);
        return ExposureGap.Of(FNumber.FromMarking(aperture), shutter, light, Base);
    }
}
