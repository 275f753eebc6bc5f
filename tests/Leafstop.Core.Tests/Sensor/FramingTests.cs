using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Moved tripod, changed focus, wrong clock. Derived: each is put in.</summary>
public sealed class FramingTests
{
    private static readonly double[] Isos = [100, 200, 400, 800, 1600, 3200, 6400];

    private static float[] Shifted(double px, double stops = 0) => [.. ExactBench.Scene(px).Select(v => ExactBench.Raw(v * Math.Pow(2, stops)))];

    [Theory]
    [InlineData(0.4)]
    [InlineData(1)]
    [InlineData(-3)]
    public void A_tripod_that_moved_between_levels_is_found_where_it_moved(double px)
    {
        ExactBench bench = ExactBench.Metered(Isos);
        foreach (double iso in new double[] { 1600, 3200, 6400 }) bench.ChangeFrames(iso, f => f with { Map = f.Map with { MeanRawDn = Shifted(px) } });
        BenchAnswer answer = bench.Answer();
        Finding finding = Assert.Single(answer.Findings);
        Assert.Equal(FindingCode.Moved, finding.Code);
        Assert.Contains("between ISO\u00a0800 and ISO\u00a01600", finding.Text, StringComparison.Ordinal);
        Assert.Equal(6, finding.Frames.Length);
        Assert.All(answer.Levels, l => Assert.True(l.Usable));
        // 0.3 px, what is not told from a tripod that stayed, and a sixth of the shift: the coarse map's slopes are taken over two blocks and come out too gentle, so a shift comes out too long (3.4 for 3 px here).
        Assert.All(answer.Levels, l => Assert.Equal(l.Iso.Speed >= 1600 ? px : 0, l.ShiftXPx, 0.3 + Math.Abs(px) / 6));
        Assert.All(answer.Levels, l => Assert.Equal(0, l.ShiftYPx, 0.3));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.2)]
    public void A_shift_below_three_tenths_of_a_pixel_is_still(double px)
    {
        ExactBench bench = ExactBench.Metered(Isos);
        foreach (double iso in new double[] { 1600, 3200, 6400 }) bench.ChangeFrames(iso, f => f with { Map = f.Map with { MeanRawDn = Shifted(px) } });
        Assert.Empty(bench.Answer().Findings);
    }

    [Fact]
    public void A_change_of_light_is_not_taken_for_a_shift()
    {
        var bench = new ExactBench();
        foreach (double iso in Isos) bench.Add(iso, ExactBench.Mark(800 / iso), 8, iso == 800 ? 0.5 : 0);
        Assert.DoesNotContain(bench.Answer().Findings, f => f.Code == FindingCode.Moved);
    }

    [Fact]
    public void A_pair_shifted_by_more_than_three_tenths_is_not_used()
    {
        BenchAnswer answer = ExactBench.Metered(Isos).ChangePairs(400, p => p with { ShiftXPx = 0.4 }).Answer();
        Level level = answer.Levels.Single(l => l.Iso.Speed == 400);
        Assert.False(level.Usable);
        Assert.Contains(LevelFlag.Moved, level.Flags);
        Assert.Contains("0.4 px", level.Reason!, StringComparison.Ordinal);
        Assert.Equal(FindingCode.Moved, Assert.Single(answer.Findings).Code);
        // The tripod stays where it went: the levels after it lie as far beside.
        Assert.All(answer.Levels, l => Assert.Equal(l.Iso.Speed > 400 ? 0.4 : 0, l.ShiftXPx, 1e-9));
    }

    [Fact]
    public void A_shifted_pair_says_nothing_about_smoothing()
    {
        ExactBench bench = ExactBench.Metered(Isos).ChangePairs(400, p => p with { ShiftXPx = 3 }).ChangePairPlanes(400, p => p with { CorrelationX = 0.8, CorrelationY = 0.8 });
        Level level = bench.Answer().Levels.Single(l => l.Iso.Speed == 400);
        Assert.Equal(LevelFlag.Moved, Assert.Single(level.Flags));
        Assert.Null(level.NeighbourCorrelation);
    }

    [Fact]
    public void Detail_that_clips_away_in_one_light_is_no_changed_focus()
    {
        ExactBench bench = ExactBench.SameLight(800, Isos).ChangePairs(1600, p => p with { Detail = 0.02 });
        Assert.DoesNotContain(bench.Answer().Findings, f => f.Code == FindingCode.FocusChanged);
    }

    [Fact]
    public void A_shift_within_its_error_is_no_shift() =>
        Assert.Empty(ExactBench.Metered(Isos).ChangePairs(400, p => p with { ShiftXPx = 0.5, ShiftErrorPx = 0.2 }).Answer().Findings);

    [Fact]
    public void Same_settings_with_another_picture_are_no_pair()
    {
        BenchAnswer answer = ExactBench.Metered(Isos).ChangePairs(400, p => p with { IsFalsePair = true, Planes = [] }).Answer();
        Assert.Contains(answer.Findings, f => f.Code == FindingCode.FalsePair);
        Level level = answer.Levels.Single(l => l.Iso.Speed == 400);
        Assert.False(level.Usable);
        Assert.Contains("different pictures", level.Reason!, StringComparison.Ordinal);
    }

    [Fact]
    public void Detail_that_falls_by_a_third_is_a_changed_focus()
    {
        BenchAnswer answer = ExactBench.Metered(Isos).ChangePairs(3200, p => p with { Detail = 0.026 }).Answer();
        Finding finding = Assert.Single(answer.Findings);
        Assert.Equal(FindingCode.FocusChanged, finding.Code);
        Assert.Contains("ISO\u00a03200", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_of_the_scene_that_moved_is_told()
    {
        BenchAnswer answer = ExactBench.Metered(Isos).ChangePairPlanes(3200, p => p with { RestlessTiles = 900 }).Answer();
        Assert.Equal(FindingCode.SceneMoved, Assert.Single(answer.Findings).Code);
        Assert.All(answer.Levels, l => Assert.True(l.Usable));
    }

    [Fact]
    public void A_clock_at_its_factory_date_is_told_and_changes_nothing()
    {
        ExactBench bench = ExactBench.Metered(Isos);
        foreach (double iso in Isos)
            bench.ChangeFrames(iso, f => f with { Header = f.Header with { TakenAt = new DateTime(1980, 1, 1, 0, (int)Math.Log2(iso), 0, DateTimeKind.Unspecified) } });
        BenchAnswer answer = bench.Answer();
        Assert.Equal(FindingCode.Clock, Assert.Single(answer.Findings).Code);
        Assert.Equal(LadderKind.Metered, answer.Ladder);
    }

    [Fact]
    public void A_clock_that_jumps_a_day_is_told()
    {
        ExactBench bench = ExactBench.Metered(Isos);
        bench.ChangeFrames(6400, f => f with { Header = f.Header with { TakenAt = f.Header.TakenAt!.Value.AddDays(1) } });
        Assert.Equal(FindingCode.Clock, Assert.Single(bench.Answer().Findings).Code);
    }
}
