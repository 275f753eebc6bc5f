using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Motion;

public sealed class SwayingLeafTests
{
    // Amplitude 1 m and one swing a second: travel in metres is in amplitudes, time in periods.
    private static readonly SwayingLeaf Unit = SwayingLeaf.Of(Length.FromMetres(1), 1);

    private static ShutterTime Periods(double share) => ShutterTime.FromSeconds(share);

    // The leaf of the job: ±2 cm at 2 Hz, 50 mm lens, 10 m, print 60 cm from a 36 mm frame at arm's length, 60 cm.
    private static readonly SwayingLeaf Breeze = SwayingLeaf.Of(Length.FromCentimetres(2), 2);
    private static readonly MovingSubject FromHere = MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.FromMetres(10));
    private static readonly JudgedPrint Print = JudgedPrint.Of(FrameFormat.FullFrame, Length.FromCentimetres(60), Length.FromCentimetres(60));

    // B-07 (derived, checked numerically there).
    [Theory]
    [InlineData(0.05, 0.1996)]
    [InlineData(0.1, 0.3967)]
    [InlineData(0.25, 0.9502)]
    [InlineData(0.5, 1.6366)]
    [InlineData(1, 2)]
    [InlineData(7.3, 2)]
    public void Mean_travel_of_a_random_moment(double periods, double amplitudes) =>
        Assert.Equal(amplitudes, Unit.MeanTravel(Periods(periods)).Metres, 1e-4);

    // B-08 (derived, checked numerically there).
    [Theory]
    [InlineData(0.1, 0.0489, 0.6180)]
    [InlineData(0.25, 0.2929, 1.4142)]
    public void Least_and_most_travel(double periods, double least, double most)
    {
        Assert.Equal(least, Unit.LeastTravel(Periods(periods)).Metres, 1e-4);
        Assert.Equal(most, Unit.MostTravel(Periods(periods)).Metres, 1e-4);
    }

    // B-09 (derived, checked numerically there).
    [Theory]
    [InlineData(0.1, 0.2, 0.2098)]
    [InlineData(0.05, 0.1, 0.2071)]
    [InlineData(0.25, 0.5, 0.1667)]
    public void Chance_of_travel_within_a_length(double periods, double amplitudes, double chance) =>
        Assert.Equal(chance, Unit.ChanceWithin(Length.FromMetres(amplitudes), Periods(periods)).Share, 1e-4);

    [Fact]
    public void Below_the_least_there_is_no_chance_and_above_the_most_no_doubt()
    {
        Assert.Equal(0, Unit.ChanceWithin(Length.FromMetres(0.04), Periods(0.1)).Share);
        Assert.Equal(1, Unit.ChanceWithin(Length.FromMetres(0.62), Periods(0.1)).Share);
        Assert.Equal(0, Unit.ChanceWithin(Length.FromMetres(1.99), Periods(1)).Share, 1e-12);
        Assert.Equal(1, Unit.ChanceWithin(Length.FromMetres(2), Periods(30)).Share);
    }

    // W-16 (derived): speed from amplitude and frequency, 0.1 %.
    [Theory]
    [InlineData(5, 3, 0.0942, 0.0666)]
    [InlineData(50, 0.5, 0.157, 0.111)]
    public void Speed_of_a_swing(double millimetres, double hertz, double peak, double rms)
    {
        var leaf = SwayingLeaf.Of(Length.FromMillimetres(millimetres), hertz);
        // Half a unit of the last digit that the row prints, which is coarser than its 0.1 %.
        Assert.Equal(peak, leaf.PeakSpeed.MetresPerSecond, 5e-4);
        Assert.Equal(rms, leaf.RootMeanSquareSpeed.MetresPerSecond, 5e-4);
    }

    // W-20 (second-hand, from memory): frequency of branches, 1 %.
    [Theory]
    [InlineData(1, 2.55)]
    [InlineData(2, 1.69)]
    [InlineData(4, 1.13)]
    public void Longer_branches_swing_slower(double metres, double hertz) =>
        Assert.Equal(hertz, SwayingLeaf.BranchHertz(Length.FromMetres(metres)), hertz * 0.01);

    // Derived: worked figures of the job, two decimals; marks are exact powers.
    [Theory]
    [InlineData("1/30", 0.66)]
    [InlineData("1/60", 0.33)]
    [InlineData("1/125", 0.16)]
    [InlineData("1/250", 0.08)]
    public void A_leaf_at_ten_metres_smears_on_the_print_as_worked_out(string shutter, double millimetres)
    {
        Length atPeak = FromHere.Smear(Breeze.PeakSpeed, ShutterTime.Parse(shutter));
        Assert.Equal(millimetres, Math.Round(Print.Judge(atPeak).OnPrint.Millimetres, 2));
        // The swing itself turns back, so the most it sweeps is a little less: within a hundredth of a millimetre at these times.
        Assert.InRange(Print.Judge(FromHere.ImageTravel(Breeze.MostTravel(ShutterTime.Parse(shutter)))).OnPrint.Millimetres, millimetres - 0.015, millimetres + 0.005);
    }

    // Derived: worked figures of the job: 25 cm/s, 1/125 at peak swing, 1/60 works at the turning point; a third of the time under half the peak speed.
    [Fact]
    public void The_peak_wants_a_125th_and_a_60th_works_at_the_turning_point()
    {
        Assert.Equal(0.25, Breeze.PeakSpeed.MetresPerSecond, 0.005);
        Length allowed = FromHere.TravelFor(Print.CircleOfConfusion)!.Value;
        Assert.Equal("1/125 s", Breeze.LongestShutter(allowed).Mark(DialStep.Wholes)!.ToDisplay());
        var sixtieth = ShutterTime.Parse("1/60");
        Assert.True(Print.Judge(FromHere.ImageTravel(Breeze.LeastTravel(sixtieth))).Passes);
        Assert.False(Print.Judge(FromHere.ImageTravel(Breeze.MeanTravel(sixtieth))).Passes);
        Assert.InRange(Breeze.ChanceWithin(allowed, sixtieth).Share, 0.3, 0.4);
        Assert.Equal(1 / 3.0, Breeze.TimeBelow(Speed.FromMetresPerSecond(Breeze.PeakSpeed.MetresPerSecond / 2)).Share, 1e-12);
    }

    // Derived: worked figures of the job. 25 cm/s and 0.17 mm: 100 mm from 15 m needs 1/163, dialled 1/200, and 1/160 leaves 0.172 mm.
    // 1 %: those figures take f/d for the magnification; the thin lens is 0.7 % larger at 15 m with 100 mm.
    [Fact]
    public void A_long_lens_from_fifteen_metres_needs_a_200th()
    {
        var speed = Speed.FromMetresPerSecond(0.25);
        var subject = MovingSubject.Of(Lens.Of(Length.FromMillimetres(100)), SubjectDistance.FromMetres(15));
        Length allowed = Print.Viewing.OnSensor(Length.FromMillimetres(0.17), FrameFormat.FullFrame);
        HoldingShutter holds = subject.LongestShutter(speed, allowed);
        Assert.Equal(163, 1 / holds.Exact!.Seconds, 1.63);
        Assert.Equal("1/200 s", holds.Mark()!.ToDisplay());
        Assert.Equal(0.172, Print.Judge(subject.Smear(speed, ShutterTime.Parse("1/160"))).OnPrint.Millimetres, 0.00172);
        // "24 mm from 5 m is about the same" as 50 mm from 10 m: within a twelfth of a stop.
        double near = MovingSubject.Of(Lens.Of(Length.FromMillimetres(24)), SubjectDistance.FromMetres(5)).LongestShutter(speed, allowed).Exact!.Seconds;
        double far = FromHere.LongestShutter(speed, allowed).Exact!.Seconds;
        Assert.Equal(0, Math.Log2(near / far), 1 / 12.0);
    }

    // P-09 to P-11 (common practice, no source), ±1 stop as the rows give it: leaves in a breeze 1/125 at least, with a long lens 1/250 to 1/500,
    // and 1/60 to 1/80 works in the pauses.
    [Fact]
    public void The_trade_chooses_the_same_times_for_leaves()
    {
        double Held(double focalMm) => Breeze.LongestShutter(
            MovingSubject.Of(Lens.Of(Length.FromMillimetres(focalMm)), SubjectDistance.FromMetres(10)).TravelFor(Print.CircleOfConfusion)!.Value).Exact!.Seconds;
        Assert.InRange(Held(50), 1 / 256.0, 1 / 64.0);
        Assert.InRange(Held(135), 1 / 1024.0, 1 / 128.0);
        Assert.InRange(Breeze.LongestShutter(FromHere.TravelFor(Print.CircleOfConfusion)!.Value, Chance.Of(1 / 3.0)).Exact!.Seconds, 1 / 160.0, 1 / 32.0);
    }

    // The acuity for smear when none is given, 1′: 0.1745 mm at 60 cm; the answer records it.
    [Fact]
    public void A_smear_records_the_acuity_it_was_judged_by()
    {
        PrintSmear smear = Print.Judge(FromHere.Smear(Breeze.PeakSpeed, ShutterTime.Parse("1/60")));
        Assert.Equal(0.1745, smear.Print.AllowedOnPrint.Millimetres, 5e-5);
        Assert.False(smear.Print.AcuityWasGiven);
        Assert.Equal("0.33 mm on the print, 1.9 circles of confusion at an acuity of 1\u2032 (assumed)", smear.ToDisplay());
        var own = JudgedPrint.Of(FrameFormat.FullFrame, Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1.43));
        Assert.True(own.AcuityWasGiven);
        Assert.Equal(0.25, own.AllowedOnPrint.Millimetres, 5e-4);
        Assert.Equal("0.33 mm on the print, 1.3 circles of confusion at an acuity of 1.43\u2032", own.Judge(smear.OnSensor).ToDisplay());
    }

    // Derived: worked figures of the job: 0.33 mm seen at 1/60 asks for 1/125.
    [Fact]
    public void A_trial_frame_tells_the_shutter_that_holds()
    {
        PrintSmear seen = Print.Judge(Print.Viewing.OnSensor(Length.FromMillimetres(0.33), FrameFormat.FullFrame));
        Assert.Equal("1/125 s", seen.ShutterThatHolds(ShutterTime.Parse("1/60")).ToDisplay());
        Assert.True(Print.Judge(default).ShutterThatHolds(ShutterTime.Parse("1/60")).HoldsAnyTime);
    }

    // Derived: cropping to two thirds enlarges everything by half as much again.
    [Fact]
    public void A_crop_enlarges_the_smear()
    {
        var cropped = JudgedPrint.Of(FrameFormat.FullFrame, Length.FromCentimetres(60), Length.FromCentimetres(60), crop: 2 / 3.0);
        Assert.Equal(1.5, cropped.Judge(Length.FromMillimetres(0.01)).OnPrint.Millimetres / Print.Judge(Length.FromMillimetres(0.01)).OnPrint.Millimetres, 1e-12);
    }

    // Derived: B-07 to B-09 against 20 000 evenly spread moments, also between half a period and a whole one, where rows give nothing.
    [Theory]
    [InlineData(0.03)]
    [InlineData(0.2)]
    [InlineData(0.45)]
    [InlineData(0.6)]
    [InlineData(0.9)]
    public void Looking_at_every_moment_gives_the_same_mean_limits_and_chances(double periods)
    {
        const int moments = 20_000;
        double[] travels = new double[moments];
        for (int i = 0; i < moments; i++)
        {
            double from = 2 * Math.PI * i / moments, to = from + 2 * Math.PI * periods;
            double most = Math.Max(Math.Sin(from), Math.Sin(to)), least = Math.Min(Math.Sin(from), Math.Sin(to));
            for (double turn = Math.PI / 2; turn < to; turn += Math.PI)
            {
                if (turn <= from) continue;
                most = Math.Max(most, Math.Sin(turn));
                least = Math.Min(least, Math.Sin(turn));
            }
            travels[i] = most - least;
        }
        // 2e-4: one moment in 20 000 weighs 5e-5, and a limit may lie between two of them.
        Assert.Equal(travels.Average(), Unit.MeanTravel(Periods(periods)).Metres, 2e-4);
        Assert.Equal(travels.Min(), Unit.LeastTravel(Periods(periods)).Metres, 2e-4);
        Assert.Equal(travels.Max(), Unit.MostTravel(Periods(periods)).Metres, 2e-4);
        for (double e = 0.05; e < 2; e += 0.05)
        {
            // The chance may jump at a whole swing and rises steeply just under the most: half a hundredth of chance is 1e-4 of travel there.
            double below = travels.Count(t => t <= e - 1e-4) / (double)moments, above = travels.Count(t => t <= e + 1e-4) / (double)moments;
            Assert.InRange(Unit.ChanceWithin(Length.FromMetres(e), Periods(periods)).Share, below - 2e-4, above + 2e-4);
        }
    }

    [Fact]
    public void The_longest_shutter_for_a_chance_has_just_that_chance() =>
        Gen.Select(Gen.Double[0.001, 1.99], Gen.Double[0.01, 0.99]).Sample((e, share) =>
        {
            var travel = Length.FromMetres(e);
            HoldingShutter holds = Unit.LongestShutter(travel, Chance.Of(share));
            HoldingShutter always = Unit.LongestShutter(travel);
            // 1e-6: arcsine and arccosine are steep at the ends of their range.
            return Math.Abs(Unit.ChanceWithin(travel, holds.Exact!).Share - share) < 1e-6
                && always.Exact! <= ShutterTime.FromSeconds(holds.Exact!.Seconds * (1 + 1e-9))
                && Math.Abs(Unit.MostTravel(always.Exact!).Metres - e) < 1e-9;
        });

    [Fact]
    public void Longer_exposures_never_sweep_less() =>
        Gen.Select(Gen.Double[0.001, 3], Gen.Double[0.001, 3], Gen.Double[0.01, 2]).Sample((a, b, e) =>
        {
            ShutterTime shorter = Periods(Math.Min(a, b)), longer = Periods(Math.Max(a, b));
            bool ordered = Unit.LeastTravel(longer) <= Unit.MeanTravel(longer) && Unit.MeanTravel(longer).Metres <= Unit.MostTravel(longer).Metres + 1e-12;
            return ordered && Unit.MeanTravel(shorter).Metres <= Unit.MeanTravel(longer).Metres + 1e-12
                && Unit.ChanceWithin(Length.FromMetres(e), longer).Share <= Unit.ChanceWithin(Length.FromMetres(e), shorter).Share + 1e-12;
        });

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SwayingLeaf.Of(default, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwayingLeaf.Of(Length.FromCentimetres(2), double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Breeze.LongestShutter(default));
        Assert.Throws<ArgumentOutOfRangeException>(() => Breeze.LongestShutter(Length.FromCentimetres(1), default));
        Assert.True(Breeze.LongestShutter(Length.FromCentimetres(4)).HoldsAnyTime);
    }
}
