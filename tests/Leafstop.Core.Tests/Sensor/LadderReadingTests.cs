using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Which ladder a folder holds. Derived: the ladders are built, so the answer is known.</summary>
public sealed class LadderReadingTests
{
    private static readonly double[] WholeStops = [100, 200, 400, 800, 1600, 3200, 6400];

    /// <summary>Dark frames alone give no curve; the 14 bits of the body are those of its white tag, 16383, for caps use codes up to 1100 or so.</summary>
    [Fact]
    public void Cap_frames_alone_are_told_as_such()
    {
        ExactBench bench = new ExactBench().AddCaps(100).AddCaps(400);
        foreach (double iso in (double[])[100, 400])
            bench.ChangePlanes(iso, p => p with { MaxDn = 1090, ClipDn = null });
        BenchAnswer answer = bench.Answer();
        Assert.False(answer.HasAnswer);
        Assert.Equal(14, answer.Camera!.Bits);
        Assert.Contains("Lens-cap frames alone", Assert.Single(answer.Findings).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void One_time_and_one_aperture_are_a_same_light_ladder_which_does_not_say_how_high()
    {
        BenchAnswer answer = ExactBench.SameLight(800, WholeStops).Answer();
        Assert.Equal(LadderKind.SameLight, answer.Ladder);
        Finding finding = Assert.Single(answer.Findings, f => f.Code == FindingCode.SameLightOnly);
        Assert.Contains("how high", finding.Text, StringComparison.Ordinal);
        // The lamp is not known: 1/20 is the fastest time that neither mains spoils (ShotListTests).
        Assert.Contains("1/20 s at ISO\u00a06400", finding.Text, StringComparison.Ordinal);
        Assert.Contains("3.2 s at ISO\u00a0100", finding.Text, StringComparison.Ordinal);
        Assert.Empty(answer.PredictedLimits);
        Assert.Equal(6, answer.LiftOrDial.Single(r => r.Shot.Speed == 100 && r.LiftedTo.Speed == 6400).HighlightStopsKept, 1e-6);
        Assert.All(answer.Levels, l => Assert.Equal(0, l.LightErrorStops!.Value, 0.01));
    }

    [Fact]
    public void A_mixed_folder_is_split_and_every_frame_has_its_ladder()
    {
        var bench = new ExactBench();
        foreach (double iso in new double[] { 400, 800, 1600, 3200, 6400 }) bench.Add(iso, ExactBench.Mark(100 / iso), 8, 0);
        foreach (double iso in new double[] { 100, 400, 800, 1600 }) bench.Add(iso, 1 / 30.0, 8, Math.Log2(iso / 3200));
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.Mixed, answer.Ladder);
        Assert.Equal(10, answer.Levels.Where(l => l.Ladder == LadderKind.Metered).Sum(l => l.Frames.Length));
        Assert.Equal(8, answer.Levels.Where(l => l.Ladder == LadderKind.SameLight).Sum(l => l.Frames.Length));
        Assert.Equal([400, 800, 1600, 3200, 6400], answer.Levels.Where(l => l.Ladder == LadderKind.Metered).Select(l => l.Iso.Speed));
    }

    [Fact]
    public void The_level_where_both_ladders_cross_is_split_by_time_when_it_was_shot_twice()
    {
        var bench = new ExactBench();
        foreach (double iso in new double[] { 400, 800, 1600, 3200 }) bench.Add(iso, ExactBench.Mark(50 / iso), 8, 0);
        foreach (double iso in new double[] { 100, 400, 800, 1600 }) bench.Add(iso, 1 / 30.0, 8, Math.Log2(iso / 1600));
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.Mixed, answer.Ladder);
        Assert.Equal(8, answer.Levels.Where(l => l.Ladder == LadderKind.Metered).Sum(l => l.Frames.Length));
        Assert.Equal(8, answer.Levels.Where(l => l.Ladder == LadderKind.SameLight).Sum(l => l.Frames.Length));
        Assert.Equal(2, answer.Levels.Count(l => l.Iso.Speed == 1600));
    }

    [Fact]
    public void A_lens_without_contacts_whose_ring_does_the_work_is_read_from_the_light()
    {
        // One time, no stated aperture, equal brightness at every ISO: the ring was stopped down.
        var bench = new ExactBench();
        foreach (double iso in WholeStops) bench.Add(iso, 1 / 30.0, null, 0);
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.Metered, answer.Ladder);
        Assert.All(answer.Levels, l => Assert.Equal(0, l.LightErrorStops!.Value, 0.01));
    }

    [Fact]
    public void Files_that_state_neither_time_nor_aperture_are_read_from_the_light()
    {
        var metered = new ExactBench();
        var same = new ExactBench();
        foreach (double iso in WholeStops)
        {
            metered.Add(iso, null, null, 0);
            same.Add(iso, null, null, Math.Log2(iso / 1600));
        }

        Assert.Equal(LadderKind.Metered, metered.Answer().Ladder);
        Assert.Equal(LadderKind.SameLight, same.Answer().Ladder);
    }

    [Fact]
    public void Cap_frames_make_no_level_of_light()
    {
        ExactBench bench = ExactBench.Metered(WholeStops);
        foreach (double iso in WholeStops) bench.AddCaps(iso);
        Assert.Equal(7, bench.Answer().Levels.Length);
    }

    [Fact]
    public void Two_levels_are_told_as_two()
    {
        BenchAnswer answer = ExactBench.Metered(100, 800).Answer();
        Assert.Equal(LadderKind.None, answer.Ladder);
        Assert.True(answer.HasAnswer);
        Finding finding = Assert.Single(answer.Findings, f => f.Code == FindingCode.NoLadder);
        Assert.StartsWith("Only two levels, ISO\u00a0100 and ISO\u00a0800, each metered.", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void One_level_is_no_ladder_and_says_so() =>
        Assert.Contains(ExactBench.Metered(800).Answer().Findings, f => f.Code == FindingCode.NoLadder && f.Text.StartsWith("All frames are at ISO", StringComparison.Ordinal));

    [Fact]
    public void Settings_that_follow_no_rule_are_no_ladder()
    {
        var bench = new ExactBench();
        double[] stops = [0, -2, 1.2, -3, 0.4];
        for (int i = 0; i < stops.Length; i++)
            bench.Add(WholeStops[i], Math.Pow(2, -5 - i + stops[i]), 8, stops[i]);
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.None, answer.Ladder);
        Assert.Contains(answer.Findings, f => f.Code == FindingCode.NoLadder && f.Text.Contains("follow no rule", StringComparison.Ordinal));
    }

    [Fact]
    public void A_level_that_is_missing_is_named()
    {
        Finding finding = Assert.Single(ExactBench.Metered(100, 200, 800, 1600).Answer().Findings);
        Assert.Equal(FindingCode.MissingLevel, finding.Code);
        Assert.Contains("ISO\u00a0400", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_two_bodies_the_one_with_most_frames_is_measured()
    {
        ExactBench bench = ExactBench.Metered(WholeStops);
        bench.ChangeFrames(6400, f => f with { Header = f.Header with { Model = "Body B" } });
        BenchAnswer answer = bench.Answer();
        Assert.Equal("Body A", answer.Camera!.Model);
        Assert.Equal(6, answer.Levels.Length);
        Assert.Equal(2, Assert.Single(answer.Findings, f => f.Code == FindingCode.TwoBodies).Frames.Length);
    }

    [Fact]
    public void Two_sizes_are_not_mixed()
    {
        ExactBench bench = ExactBench.Metered(WholeStops);
        bench.ChangeFrames(200, f => f with { Header = f.Header with { Width = 600, Height = 400 } });
        BenchAnswer answer = bench.Answer();
        Assert.DoesNotContain(answer.Levels, l => l.Iso.Speed == 200);
        Assert.Contains(answer.Findings, f => f.Code == FindingCode.TwoSizes);
    }

    [Fact]
    public void A_copy_of_a_frame_is_no_second_frame()
    {
        ExactBench bench = ExactBench.Metered(WholeStops);
        bench.ChangeFrames(400, f => f with { SampleDigest = 77 });
        BenchAnswer answer = bench.Answer();
        Assert.Contains(answer.Findings, f => f.Code == FindingCode.Duplicate);
        Level level = answer.Levels.Single(l => l.Iso.Speed == 400);
        Assert.False(level.Usable);
        Assert.Equal(Assert.Single(level.Frames), bench.Frames.First(f => f.Header.Iso == 400).Header.File);
    }

    [Fact]
    public void Without_frames_there_is_no_camera_and_earlier_findings_are_kept()
    {
        var earlier = new Finding(FindingCode.JpegOnly, [], "Only JPEGs.");
        BenchAnswer answer = BenchAnalysis.Of([], [], [earlier], new PrintCondition(600, 600));
        Assert.Null(answer.Camera);
        Assert.Equal(earlier, Assert.Single(answer.Findings));
    }
}
