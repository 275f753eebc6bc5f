using CsCheck;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Planning;

public sealed class GapPlanTests
{
    private static readonly Iso Base = Iso.FromSpeed(100);
    private static readonly Iso Clean = Iso.FromSpeed(800);
    private static readonly Iso Stretch = Iso.FromSpeed(3200);

    // Published: job, acceptance scenario E2: f/11, 1/4 s, meter 6 2/3 through the polariser: ISO 500, inside clean, 2/3 spare.
    [Fact]
    public void Dimble_Spout_needs_ISO_500_with_two_thirds_to_spare()
    {
        Stops gap = GapPlan.GapOf(FNumber.Parse("f/11"), ShutterTime.Parse("1/4"), ExposureValue.Parse("6 2/3"), Base);
        GapPlan plan = GapPlan.Close(Base, gap, Clean, Stretch);
        Assert.Equal("2 1/3", plan.Gap.ToDisplay());
        Assert.Equal(500, plan.IsoDial.Speed);
        Assert.Equal(504, plan.IsoExact.Speed, 0.05);
        Assert.Equal("2/3", plan.SpareToClean.ToDisplay());
        Assert.Equal(GapVerdict.Clean, plan.Verdict);
    }

    // Published: job, acceptance scenario E3: f/8, 1/60, 3 under: ISO 800, at the clean limit, 0 spare.
    [Fact]
    public void Brackenhush_Wood_needs_ISO_800_on_the_clean_limit()
    {
        Stops gap = GapPlan.GapOf(FNumber.Parse("f/8"), ShutterTime.Parse("1/60"), ExposureValue.Parse("9"), Base);
        GapPlan plan = GapPlan.Close(Base, gap, Clean, Stretch);
        Assert.Equal(800, plan.IsoDial.Speed);
        Assert.Equal("0", plan.SpareToClean.ToDisplay());
        Assert.Equal(GapVerdict.Clean, plan.Verdict);
    }

    // Published: job E3 and the pocket card: 4 under is 1600, 1 over clean and 1 under stretch; from base 64, 2 1/3 under is ISO 320.
    [Fact]
    public void One_stop_more_is_past_clean_and_inside_stretch()
    {
        GapPlan plan = GapPlan.Close(Base, Stops.Of(4), Clean, Stretch);
        Assert.Equal((1600, "\u22121", "1", GapVerdict.Stretch), (plan.IsoDial.Speed, plan.SpareToClean.ToDisplay(), plan.SpareToStretch.ToDisplay(), plan.Verdict));
        Assert.Equal(320, GapPlan.Close(Iso.FromSpeed(64), Stops.FromThirds(7), Clean, Stretch).IsoDial.Speed);
        Assert.Equal(GapVerdict.Beyond, GapPlan.Close(Base, Stops.Of(5.01), Clean, Stretch).Verdict);
    }

    // Published: the ladder of the pocket card in the job, gap in thirds to ISO dialled.
    [Theory]
    [InlineData("1", 200)]
    [InlineData("1 1/3", 250)]
    [InlineData("1 2/3", 320)]
    [InlineData("2", 400)]
    [InlineData("2 1/3", 500)]
    [InlineData("2 2/3", 640)]
    [InlineData("3", 800)]
    [InlineData("5", 3200)]
    public void Gap_and_ISO_go_together_as_on_the_card(string gap, double iso) =>
        Assert.Equal(iso, GapPlan.Close(Base, Stops.Parse(gap), Clean, Stretch).IsoDial.Speed);

    // Derived: a limit at the mark 500 means 503.97, so a gap of 2 1/3 is on it and not past it.
    [Fact]
    public void A_limit_equal_to_the_ISO_needed_is_inside() =>
        Assert.Equal(GapVerdict.Clean, GapPlan.Close(Base, Stops.FromThirds(7), Iso.FromSpeed(500), Stretch).Verdict);

    // Derived: gap and spare always add up to the distance from base to the limit; a wider gap never has more to spare.
    [Fact]
    public void Gap_and_spare_add_up_to_the_room_above_base() =>
        Gen.Double[-3, 10].Sample(gap =>
            Math.Abs(GapPlan.Close(Base, Stops.Of(gap), Clean, Stretch).SpareToClean.Value + gap - 3) < 1e-9);

    [Fact]
    public void A_stretch_limit_below_clean_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GapPlan.Close(Base, Stops.Of(1), Stretch, Clean));
}
