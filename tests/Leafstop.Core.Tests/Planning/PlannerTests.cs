using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Planning;

public sealed class PlannerTests
{
    // Published: job E2 and answer 6: ISO 500, inside clean, 2/3 spare; polariser not counted twice; without it ISO 180 (dial 200); foam caution.
    [Fact]
    public void Dimble_Spout_is_inside_clean()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { FoamOverMidGrey = Stops.Of(2.7) });
        Assert.Equal((500, "2 1/3", PlanVerdict.Clean), (plan.Iso.Dial.Speed, plan.Answer.Gap.ToDisplay(), plan.Answer.Verdict));
        Assert.Equal(504, plan.Iso.Exact.Speed, 0.5);
        Assert.Equal(2 / 3.0, plan.Answer.SpareToClean!.Value.Value, 1e-9);
        Assert.Equal(8 / 3.0, plan.Answer.SpareToStretch!.Value.Value, 1e-9);
        GiveUpRow without = plan.Row(GiveUpKind.Polariser)!;
        Assert.Equal(180, without.Iso.Exact.Speed, 5.0);
        Assert.Equal(200, without.Iso.Dial.Speed);
        Assert.Contains(plan.Cautions, c => c.Code == CautionCode.Foam && c.Text.Contains("0.27 stop left", StringComparison.Ordinal));
        PlanSentences words = PlanSentences.Of(plan);
        Assert.Contains("counted already, not twice", words.Second, StringComparison.Ordinal);
        Assert.Equal("ISO 500: inside clean, 2/3 stop to spare, for a print 60 cm wide seen from 60 cm.", words.Verdict);
    }

    // Published: job E3: ISO 800, at the clean limit, 0 spare.
    [Fact]
    public void Brackenhush_Wood_is_at_the_clean_limit()
    {
        ExposurePlan plan = Planner.Plan(Scenes.BrackenhushWood);
        Assert.Equal((800, PlanVerdict.Clean), (plan.Iso.Dial.Speed, plan.Answer.Verdict));
        Assert.Equal(0, plan.Answer.SpareToClean!.Value.Value, 1e-9);
        Assert.StartsWith("ISO 800: at your clean limit, 0 to spare", PlanSentences.Of(plan).Verdict, StringComparison.Ordinal);
    }

    // Published: job E3: at 1/125 ISO 1600, 1 over clean, 1 under stretch, and what comes in which order.
    [Fact]
    public void Brackenhush_Wood_at_a_shutter_for_leaves_opens_the_table_in_order()
    {
        ExposurePlan plan = Planner.Plan(Scenes.BrackenhushWood with { Shutter = ShutterTime.Parse("1/125"), Leaves = Scenes.Leaves });
        Assert.Equal((1600, PlanVerdict.Stretch), (plan.Iso.Dial.Speed, plan.Answer.Verdict));
        Assert.Equal(-1, plan.Answer.SpareToClean!.Value.Value, 1e-9);
        Assert.Equal(1, plan.Answer.SpareToStretch!.Value.Value, 1e-9);
        Assert.StartsWith("ISO 1600: 1 stop over clean, 1 under stretch", PlanSentences.Of(plan).Verdict, StringComparison.Ordinal);
        Assert.Equal(
            [GiveUpKind.WaitForLull, GiveUpKind.Polariser, GiveUpKind.Aperture, GiveUpKind.SmallerPrint, GiveUpKind.Average],
            plan.GiveUp.Select(r => r.What));
    }

    // Published: job E3: lull at 1/60 with 0 spare; polariser off 1600 to 566, inside clean; f/5.6 one stop; print at 42 cm, clean becomes 1600.
    [Fact]
    public void Each_of_its_rows_reaches_clean_alone()
    {
        ExposurePlan plan = Planner.Plan(Scenes.BrackenhushWood with { Shutter = ShutterTime.Parse("1/125"), Leaves = Scenes.Leaves });
        Assert.All(plan.GiveUp, r => Assert.Equal(PlanVerdict.Clean, r.Reaches));
        GiveUpRow lull = plan.Row(GiveUpKind.WaitForLull)!;
        Assert.Equal(("1/60 s", 800), (lull.After.Shutter.ToDisplay(), lull.Iso.Dial.Speed));
        Assert.Equal(0, lull.Answer.SpareToClean!.Value.Value, 1e-9);
        GiveUpRow polariser = plan.Row(GiveUpKind.Polariser)!;
        Assert.Equal(566, polariser.Iso.Exact.Speed, 0.5);
        Assert.Equal(0.5, polariser.Answer.SpareToClean!.Value.Value, 1e-9);
        GiveUpRow aperture = plan.Row(GiveUpKind.Aperture)!;
        Assert.Equal(("f/5.6", 1), (aperture.After.Aperture.ToDisplay(), aperture.Gained.Value));
        GiveUpRow print = plan.Row(GiveUpKind.SmallerPrint)!;
        Assert.Equal(42, print.After.Print!.WidthMm / 10, 0.5);
        Assert.Equal(1600, GapAnswer.LimitsAsked(print.After)!.CleanDial!.Speed);
        Assert.Contains("Your clean limit becomes 1600", print.Cost, StringComparison.Ordinal);
    }

    // Derived: 1/60 is shorter than a textured look wants already, so twice that takes nothing away; and no dial has an ISO under base.
    [Fact]
    public void A_row_takes_no_look_away_that_was_not_there_and_names_no_ISO_under_base()
    {
        Lens lens = Lens.Of(Length.FromMillimetres(24));
        ExposurePlan plan = Planner.Plan(new Scene
        {
            Aperture = FNumber.Parse("f/8"),
            Shutter = ShutterTime.Parse("1/60"),
            Metered = ExposureValue.Of(7.8),
            BaseIso = Iso.FromSpeed(100),
            Limits = NoiseLimits.Of(Iso.FromSpeed(800), Iso.FromSpeed(3200), new LimitTags("Body A", new PrintCondition(600, 600), ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given),
            Water = WaterWish.For(WaterView.Of(lens, SubjectDistance.FromMetres(6), FrameFormat.FullFrame), Speed.FromMetresPerSecond(1), WaterLook.Textured),
            Leaves = new LeavesWish(MovingSubject.Of(lens, SubjectDistance.FromMetres(10)), new SpeedBand(Speed.FromMetresPerSecond(0.055), Speed.FromMetresPerSecond(0.055), Speed.FromMetresPerSecond(0.055)), FrameFormat.FullFrame, HowKnown.Measured),
        });
        string shutter = plan.Row(GiveUpKind.Shutter)!.Cost;
        Assert.StartsWith("The streak grows from", shutter, StringComparison.Ordinal);
        Assert.DoesNotContain("no longer", shutter, StringComparison.Ordinal);
        GiveUpRow two = plan.Row(GiveUpKind.TwoFrames)!;
        Assert.True(two.Iso.Exact.Speed < 100);
        Assert.Contains("at base ISO with", two.Cost, StringComparison.Ordinal);
        foreach (System.Text.RegularExpressions.Match named in System.Text.RegularExpressions.Regex.Matches(two.Cost, @"ISO (\d+)"))
            Assert.True(int.Parse(named.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) >= 100, two.Cost);
    }

    // Published: job A9 and E3: at 1/60 a leaf of 25 cm/s smears 0.33 mm on the print.
    [Fact]
    public void Leaves_that_move_are_told_in_print_millimetres()
    {
        Scene scene = Scenes.BrackenhushWood with { Leaves = Scenes.Leaves };
        Assert.Equal(0.33, scene.Leaves!.Smear(scene.Shutter, Scenes.Usual, 1).OnPrint.Millimetres, 0.005);
        Assert.Contains(Planner.Plan(scene).Cautions, c => c.Code == CautionCode.LeavesMove && c.Text.Contains("0.33 mm", StringComparison.Ordinal));
        Assert.DoesNotContain(Planner.Plan(scene with { Shutter = ShutterTime.Parse("1/125") }).Cautions, c => c.Code == CautionCode.LeavesMove);
    }

    // Derived: 1/125 holds 25 cm/s; three times that wants 1/400, and a speed known to a factor of 3 says so.
    [Fact]
    public void A_speed_that_is_a_guess_says_what_its_fast_end_wants()
    {
        LeavesWish guessed = Scenes.Leaves with { Peak = SpeedBand.WithinFactor(Speed.FromMetresPerSecond(0.25), 3), How = HowKnown.RuleOfThumb };
        Caution caution = Assert.Single(
            Planner.Plan(Scenes.BrackenhushWood with { Shutter = ShutterTime.Parse("1/125"), Leaves = guessed }).Cautions, c => c.Code == CautionCode.LeavesMove);
        Assert.Contains("at the fast end of the guess they want 1/400 s", caution.Text, StringComparison.Ordinal);
        Assert.Contains("a factor of 3", caution.Text, StringComparison.Ordinal);
    }

    // Published: job, answer 13: 25 cm/s, 50 mm, 10 m: 1/125 at the height of the swing, 1/60 at its turning point.
    [Fact]
    public void The_shutter_that_holds_the_leaves_is_a_125th_and_in_a_lull_a_60th()
    {
        Assert.Equal("1/125 s", Scenes.Leaves.Holding(Scenes.Usual, 1).Mark()!.ToDisplay());
        Assert.Equal("1/60 s", Scenes.Leaves.HoldingInLull(Scenes.Usual, 1).Mark()!.ToDisplay());
    }

    // Published: job, answer 10: the polariser costs about 1.5 stops, 800 against 280; past stretch the advice is half its effect or one with and one without.
    [Fact]
    public void The_polariser_costs_a_stop_and_a_half()
    {
        GiveUpRow off = Planner.Plan(Scenes.BrackenhushWood).Row(GiveUpKind.Polariser)!;
        Assert.Equal(280, off.Iso.Exact.Speed, 5.0);
        Assert.Equal(1.5, off.Gained.Value);
        Assert.Contains("glare on wet rock cannot", off.Cost, StringComparison.Ordinal);
        Assert.Contains("half its effect", Planner.Plan(Scenes.Of("f/8", "1/60", "6")).Row(GiveUpKind.Polariser)!.Cost, StringComparison.Ordinal);
    }

    // Published: job, answer 9 and E7: 35 to 70 mm from the same spot: 1/4 becomes 1/8, the gap grows by one stop, 500 to 1000; from 12 m 1/4 stands.
    [Fact]
    public void A_longer_lens_from_the_same_spot_costs_a_stop()
    {
        var lens = Lens.Of(Length.FromMillimetres(70));
        StreakConversion near = Scenes.Water.ConvertTo(WaterView.Of(lens, SubjectDistance.FromMetres(6), FrameFormat.FullFrame), ShutterTime.Parse("1/4"));
        StreakConversion far = Scenes.Water.ConvertTo(WaterView.Of(lens, SubjectDistance.FromMetres(12), FrameFormat.FullFrame), ShutterTime.Parse("1/4"));
        Assert.Equal(("1/8 s", "1/4 s"), (near.Mark().ToDisplay(), far.Mark().ToDisplay()));
        ExposurePlan before = Planner.Plan(Scenes.DimbleSpout), after = Planner.Plan(Scenes.DimbleSpout with { Shutter = near.Mark() });
        Assert.Equal(1, (after.Answer.Gap - before.Answer.Gap).Value, 1e-9);
        Assert.Equal((500, 1000), (before.Iso.Dial.Speed, after.Iso.Dial.Speed));
    }

    // Published: job, answer 25: ISO 500 cropped to 2/3 and lifted a stop behaves like 2250, over clean by 1.5, under stretch by 1/2, clean at 36 cm.
    [Fact]
    public void Crop_and_lift_use_up_the_spare()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Lift = Stops.Of(1), WidthKept = 2 / 3.0 });
        Assert.Equal(500, plan.Iso.Dial.Speed);
        // The job multiplies the mark 500 by 4.5; the ISO needed is 504.
        Assert.Equal(2250, plan.Answer.Effective.Speed, 20.0);
        Assert.Equal(-1.5, plan.Answer.SpareToClean!.Value.Value, 0.01);
        Assert.Equal(0.5, plan.Answer.SpareToStretch!.Value.Value, 0.01);
        Assert.Equal(PlanVerdict.Stretch, plan.Answer.Verdict);
        GiveUpRow print = plan.Row(GiveUpKind.SmallerPrint)!;
        Assert.Equal(36, print.After.Print!.WidthMm / 10, 0.5);
        Assert.Equal(PlanVerdict.Clean, print.Reaches);
        Assert.Equal(1.17, plan.Row(GiveUpKind.KeepFrame)!.Gained.Value, 0.005);
        Assert.Equal(1, plan.Row(GiveUpKind.LiftLess)!.Gained.Value);
    }

    // Published: job, answer 7: from ISO 400, a lift of 2 stops leaves the light of ISO 1600, after 1 1/3 under that of ISO 4000.
    [Theory]
    [InlineData("2", 1600)]
    [InlineData("3 1/3", 4000)]
    public void Lifted_shadows_carry_the_light_of_a_higher_ISO(string lift, double iso)
    {
        var answer = GapAnswer.Of(Scenes.Of("f/11", "1/4", "7") with { Lift = Stops.Parse(lift) });
        Assert.Equal((400, iso), (DialledIso.Of(answer.Iso).Dial.Speed, DialledIso.Of(answer.Effective).Dial.Speed));
    }

    // Published: job, answer 12: stretch is two stops past clean, and a 30 cm print restores them.
    [Fact]
    public void A_print_of_half_the_width_restores_two_stops()
    {
        ExposurePlan plan = Planner.Plan(Scenes.Of("f/11", "1/4", "4"));
        Assert.Equal((3200, PlanVerdict.Stretch), (plan.Iso.Dial.Speed, plan.Answer.Verdict));
        GiveUpRow print = plan.Row(GiveUpKind.SmallerPrint)!;
        Assert.Equal(300, print.After.Print!.WidthMm, 1e-6);
        Assert.Equal(PlanVerdict.Clean, print.Reaches);
    }

    // Published: job A10: a neutral filter of 3 stops left on in a dim valley is ISO 500 to 4000.
    [Fact]
    public void A_neutral_filter_left_on_is_a_row_of_its_own()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { FiltersAfter = new FilterSet([Filter.FromFactor(8)]) });
        Assert.Equal((4000, 500), (plan.Iso.Dial.Speed, plan.Row(GiveUpKind.OtherFilter)!.Iso.Dial.Speed));
    }

    // Published: job A6: 24 mm focused at 3.4 m: the fern at 1.8 m blurs 0.32 mm on the print at f/8, 0.22 at f/11; f/8 gives back one stop.
    [Fact]
    public void The_aperture_row_says_what_depth_is_lost()
    {
        // Near and far are chosen so that the focus is the job's 3.4 m.
        var far = SubjectDistance.FromMillimetres(1 / (2 / 3400.0 - 1 / 1800.0));
        DepthWish depth = new(DepthDemand.Of(Lens.Of(Length.FromMillimetres(24)), SubjectDistance.FromMetres(1.8), far), FrameFormat.FullFrame);
        Assert.Equal(3.4, depth.Demand.Focus.Metres, 1e-9);
        GiveUpRow row = Planner.Plan(Scenes.DimbleSpout with { Depth = depth }).Row(GiveUpKind.Aperture)!;
        Assert.Equal(("f/8", 1), (row.After.Aperture.ToDisplay(), row.Gained.Value));
        Assert.Contains("from 0.22 to 0.32 mm on the print", row.Cost, StringComparison.Ordinal);
    }

    // Published: job, answer 14: nothing nearer than 2.5 m: f/8 is free.
    [Fact]
    public void Where_the_depth_holds_the_wider_aperture_costs_nothing_to_be_seen()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Depth = Scenes.DepthFrom(2.5) });
        Assert.StartsWith("Nothing you would see", plan.Row(GiveUpKind.Aperture)!.Cost, StringComparison.Ordinal);
        Assert.Null(plan.Row(GiveUpKind.FocusSteps));
        Assert.DoesNotContain(plan.Cautions, c => c.Code == CautionCode.Depth);
    }

    // Derived: a depth that the wider aperture does not hold takes focus steps; with leaves asked the row warns (job A6: they fight each other).
    [Fact]
    public void Focus_steps_warn_against_moving_leaves()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Depth = Scenes.DepthFrom(1), Leaves = Scenes.Leaves });
        Assert.Contains("every step needs its own lull", plan.Row(GiveUpKind.FocusSteps)!.Cost, StringComparison.Ordinal);
        Assert.Contains(plan.Cautions, c => c.Code == CautionCode.FocusStepsAndLeaves);
        Assert.Contains(plan.Cautions, c => c.Code == CautionCode.Depth);
    }

    // Published: job, answer 14: f/16 spreads a point to 0.15 mm, under the eye's 0.17 at arm's length; f/22 to 0.21, visibly soft.
    [Theory]
    [InlineData("f/16", false)]
    [InlineData("f/22", true)]
    public void Diffraction_is_told_where_the_eye_sees_it(string aperture, bool isTold)
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Aperture = FNumber.Parse(aperture), Leaves = Scenes.Leaves });
        Assert.Equal(isTold, plan.Cautions.Any(c => c.Code == CautionCode.Diffraction && c.Text.Contains("0.21 mm", StringComparison.Ordinal)));
    }

    // Derived from EXP-02: two stops of light to spare at base.
    [Fact]
    public void Light_to_spare_stays_arithmetic_and_names_what_fits()
    {
        ExposurePlan plan = Planner.Plan(Scenes.Of("f/11", "1/4", "11"));
        Assert.Equal(25, plan.Iso.Exact.Speed, 1e-9);
        Assert.Equal(25, plan.Iso.Dial.Speed);
        Caution caution = Assert.Single(plan.Cautions, c => c.Code == CautionCode.BelowBase);
        Assert.Contains("1/15 s, f/22, or a neutral filter of 2 stops", caution.Text, StringComparison.Ordinal);
        Assert.StartsWith("Base ISO 100 is enough, with 2 stops of light to spare", PlanSentences.Of(plan).Verdict, StringComparison.Ordinal);
    }

    // Published: job, answers 15 and 16: limits above 10 s are tested separately; subtraction is a thought from 30 s on.
    [Theory]
    [InlineData("2", false, false)]
    [InlineData("20", true, false)]
    [InlineData("30", true, true)]
    public void Long_exposures_are_told_of_their_own_limits(string shutter, bool isTold, bool isSubtraction)
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Shutter = ShutterTime.Parse(shutter), Metered = ExposureValue.Of(1), SensorCelsius = 40 });
        Caution? caution = plan.Cautions.FirstOrDefault(c => c.Code == CautionCode.LongExposure);
        Assert.Equal(isTold, caution is not null);
        Assert.Equal(isSubtraction, caution?.Text.Contains("long-exposure noise reduction", StringComparison.Ordinal) ?? false);
    }

    // Published: job, answer 20: averaged water is not the water of one frame.
    [Fact]
    public void Averaging_moving_water_is_warned_of()
    {
        Scene scene = Scenes.DimbleSpout with { FramesAveraged = 4, Water = WaterWish.For(Scenes.Water, Scenes.WaterSpeed, WaterLook.Textured) };
        Assert.Contains(Planner.Plan(scene).Cautions, c => c.Code == CautionCode.Averaging);
        Assert.Contains("leaves ghost", Planner.Plan(scene).Row(GiveUpKind.Average)!.Cost, StringComparison.Ordinal);
    }

    // Derived: the exposure found for the wishes is the widest aperture that holds the depth and a shutter that holds the leaves; a mark longer does not.
    [Fact]
    public void The_exposure_can_be_found_from_the_wishes()
    {
        Scene scene = Scenes.DimbleSpout with { Depth = Scenes.DepthFrom(2.5), Leaves = Scenes.Leaves };
        Scene found = Planner.Choose(scene, findAperture: true, findShutter: true)!;
        Assert.Equal("1/125 s", found.Shutter.ToDisplay());
        Assert.True(scene.Depth!.Holds(found.Aperture, Scenes.Usual, 1));
        Assert.False(scene.Depth.Holds(FNumber.FromRatio(found.Aperture.Ratio * Math.Pow(2, -1 / 6.0)), Scenes.Usual, 1));
        Assert.Null(Planner.Choose(scene with { Depth = Scenes.DepthFrom(0.05) }, findAperture: true, findShutter: false));
    }

    // Derived: without limits there is an ISO, and no verdict on it.
    [Fact]
    public void Without_limits_it_says_what_it_could_say()
    {
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Limits = null });
        Assert.Equal(PlanVerdict.Unknown, plan.Answer.Verdict);
        Assert.Null(plan.Answer.SpareToClean);
        Assert.Null(plan.Row(GiveUpKind.SmallerPrint));
        Assert.All(plan.GiveUp, r => Assert.Null(r.Reaches));
        Assert.Contains(plan.Cautions, c => c.Code == CautionCode.NoLimits);
        Assert.Contains("whether it is clean for a print you have not named I cannot say", PlanSentences.Of(plan).Verdict, StringComparison.Ordinal);
    }

    // Derived: with clean alone, past it is not yet beyond.
    [Fact]
    public void With_a_clean_limit_alone_past_it_is_unknown()
    {
        NoiseLimits clean = NoiseLimits.Of(Iso.FromSpeed(400), null, Scenes.Limits.Tags, LimitOrigin.Given);
        Assert.Equal(PlanVerdict.Unknown, Planner.Plan(Scenes.DimbleSpout with { Limits = clean }).Answer.Verdict);
        Assert.Equal(PlanVerdict.Clean, Planner.Plan(Scenes.Of("f/11", "1/4", "7") with { Limits = clean }).Answer.Verdict);
    }

    // Derived: equal to a limit is inside; a limit at the mark 500 means 503.97.
    [Fact]
    public void A_limit_equal_to_the_ISO_needed_is_inside()
    {
        NoiseLimits limits = NoiseLimits.Of(Iso.FromSpeed(500), Iso.FromSpeed(3200), Scenes.Limits.Tags, LimitOrigin.Given);
        Assert.Equal(PlanVerdict.Clean, Planner.Plan(Scenes.DimbleSpout with { Limits = limits }).Answer.Verdict);
    }

    [Fact]
    public void A_gap_that_nothing_could_close_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Planner.Plan(Scenes.Of("f/11", "1/4", "-25")));

    // Derived: brighter light later is offered at the first time that reaches clean.
    [Fact]
    public void Later_names_the_first_time_that_reaches_clean()
    {
        DateTimeOffset now = new(2026, 10, 17, 7, 0, 0, TimeSpan.FromHours(1));
        Scene scene = Scenes.BrackenhushWood with
        {
            Shutter = ShutterTime.Parse("1/125"),
            Ahead = [.. Enumerable.Range(1, 60).Select(m => new LightAhead(now.AddMinutes(m), Stops.Of(m / 12.0)))],
        };
        GiveUpRow later = Planner.Plan(scene).Row(GiveUpKind.Later)!;
        Assert.Equal(("Later, at 07:12", 1, PlanVerdict.Clean), (later.Words, later.Gained.Value, later.Reaches));
        Assert.Null(Planner.Plan(scene with { Ahead = [] }).Row(GiveUpKind.Later));
    }

    // Published: job A8: 35 mm at 6 m, 1 m/s: 1/4 is 4.1 % of the width, 1/2 is 8.1 %; one decimal printed.
    [Fact]
    public void A_streak_that_was_asked_is_told_and_doubles_with_the_shutter()
    {
        Scene scene = Scenes.DimbleSpout with { Water = WaterWish.For(Scenes.Water, Scenes.WaterSpeed, Streak.FromPercent(4)) };
        ExposurePlan plan = Planner.Plan(scene);
        Assert.Contains("from 4.1 % to 8.1 %", plan.Row(GiveUpKind.Shutter)!.Cost, StringComparison.Ordinal);
        Assert.DoesNotContain(plan.Cautions, c => c.Code == CautionCode.WaterLook);
        Assert.Single(plan.Cautions, c => c.Code == CautionCode.WaterSafety);
        Assert.Contains(Planner.Plan(scene with { Shutter = ShutterTime.Parse("1") }).Cautions, c => c.Code == CautionCode.WaterLook && c.Text.Contains("too long", StringComparison.Ordinal));
    }

    // Derived: the job's trap, a limit of one tone used for another: smooth to textured is a stop by a rule of thumb, anything else is refused with the reason and leaves no verdict.
    [Fact]
    public void A_tone_that_is_asked_is_converted_or_refused_never_passed_over()
    {
        NoiseLimits smooth = NoiseLimits.Of(Iso.FromSpeed(400), Iso.FromSpeed(1600), Scenes.Limits.Tags with { Tone = ToneKind.Smooth }, LimitOrigin.Given);
        Scene scene = Scenes.DimbleSpout with { Limits = smooth };
        ExposurePlan here = Planner.Plan(scene), rock = Planner.Plan(scene with { Tone = ToneKind.Textured }), dark = Planner.Plan(scene with { Tone = ToneKind.Shadows });
        Assert.Equal(1, rock.Answer.SpareToClean!.Value.Value - here.Answer.SpareToClean!.Value.Value, 1e-9);
        Assert.Contains("Texture hides noise", Assert.Single(rock.Cautions, c => c.Code == CautionCode.LimitsConverted).Text, StringComparison.Ordinal);
        Assert.Contains("another tone", PlanSentences.Of(rock).HowSure, StringComparison.Ordinal);
        Assert.Equal((PlanVerdict.Unknown, null), (dark.Answer.Verdict, dark.Limits));
        Assert.Contains("not for shadows", dark.LimitRefusal, StringComparison.Ordinal);
        Assert.Contains(dark.LimitRefusal!, PlanSentences.Of(dark).HowSure, StringComparison.Ordinal);
        Assert.Null(dark.Row(GiveUpKind.SmallerPrint));
        Assert.Null(here.LimitRefusal);
    }

    // Derived: what was judged on a print twice as wide moves by two stops here, its interval with it.
    [Fact]
    public void How_sure_a_judging_was_is_told_with_the_plan()
    {
        LimitTags tags = new("Body A, 14-bit raw", new PrintCondition(1200, 600), ToneKind.Smooth, NoiseTreatment.None);
        LimitEvidence evidence = new(new DateOnly(2026, 3, 1), JudgedAnswers.Of(Iso.FromMarking(160), Iso.FromMarking(250), Stops.Of(0.5), 35), null);
        ExposurePlan plan = Planner.Plan(Scenes.DimbleSpout with { Limits = NoiseLimits.Judged(Iso.FromMarking(200), null, tags, evidence), Print = Scenes.Usual });
        Assert.Contains("Clean 800, stretch unknown, worked out from your own judging of another print", PlanSentences.Of(plan).HowSure, StringComparison.Ordinal);
        Assert.Contains("95 % sure: clean 640 to 1000, by 35 answers.", PlanSentences.Of(plan).HowSure, StringComparison.Ordinal);
    }
}
