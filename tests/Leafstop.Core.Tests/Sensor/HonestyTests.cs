using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>One fault at a time on a sound ladder: named where it is, and nothing else named. Derived: the fault is put in.</summary>
public sealed class HonestyTests
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400];

    private static ExactBench Sound() => ExactBench.Metered(Isos);

    private static Level Only(BenchAnswer answer, double iso, LevelFlag flag, FindingCode code, bool usable)
    {
        Level level = Assert.Single(answer.Levels, l => l.Flags.Length > 0);
        Assert.Equal(iso, level.Iso.Speed);
        Assert.Equal(flag, Assert.Single(level.Flags));
        Assert.Equal(code, Assert.Single(answer.Findings).Code);
        Assert.Equal(usable, level.Usable);
        Assert.Equal(usable, level.Reason is null);
        return level;
    }

    [Theory]
    [InlineData(0.06)]
    [InlineData(0.24)]
    [InlineData(0.3)]
    public void Neighbours_that_agree_are_smoothing_and_the_level_leaves_the_curve(double correlation)
    {
        BenchAnswer answer = Sound().ChangePairPlanes(6400, p => p with { CorrelationY = correlation }).Answer();
        Level level = Only(answer, 6400, LevelFlag.Smoothed, FindingCode.Smoothed, false);
        Assert.Equal(correlation, level.NeighbourCorrelation!.Value, 1e-9);
        // In raw steps it reads low, in electrons high, because the gain is wrong: neither word is right for all of it.
        Assert.EndsWith("so its gain and read noise cannot be trusted.", level.Reason, StringComparison.Ordinal);
        Assert.DoesNotContain(answer.LiftOrDial, r => r.LiftedTo.Speed == 6400);
    }

    [Fact]
    public void A_trace_of_correlation_is_a_remark_only()
    {
        BenchAnswer answer = Sound().ChangePairPlanes(6400, p => p with { CorrelationX = 0.03 }).Answer();
        Assert.Equal(FindingCode.SlightlySmoothed, Assert.Single(answer.Findings).Code);
        Assert.All(answer.Levels, l => Assert.True(l.Usable));
    }

    /// <summary>Derived: 0.045 of 20 000 samples is 0.045 ± 0.0071, and 0.05 lies within two of these errors; of 200 000 it is 0.045 ± 0.0022 and does not.</summary>
    [Theory]
    [InlineData(20_000, false)]
    [InlineData(200_000, true)]
    public void A_correlation_that_cannot_be_told_from_that_of_a_smoothed_level_is_not_trusted(int samples, bool usable)
    {
        BenchAnswer answer = Sound().ChangePairPlanes(6400, p => p with { CorrelationX = 0.045, CorrelationSamples = samples }).Answer();
        Assert.Equal(usable, answer.Levels.Single(l => l.Iso.Speed == 6400).Usable);
        Assert.Equal(usable ? FindingCode.SlightlySmoothed : FindingCode.Smoothed, Assert.Single(answer.Findings).Code);
    }

    [Fact]
    public void A_correlation_within_four_standard_errors_is_chance()
    {
        // Published: SEN-45, white noise strays by 1/√n; 0.05 of 5000 samples is 3.5 of them.
        BenchAnswer answer = Sound().ChangePairPlanes(6400, p => p with { CorrelationX = 0.05, CorrelationSamples = 5000 }).Answer();
        Assert.Empty(answer.Findings);
    }

    [Fact]
    public void Missing_codes_at_one_level_are_arithmetic()
    {
        BenchAnswer answer = Sound().ChangePlanes(640, p => p with { Gaps = 600 }).Answer();
        Only(answer, 640, LevelFlag.Arithmetic, FindingCode.Arithmetic, false);
    }

    [Fact]
    public void Missing_codes_at_all_levels_are_the_way_the_camera_stores()
    {
        ExactBench bench = Sound();
        foreach (double iso in Isos) bench.ChangePlanes(iso, p => p with { Gaps = 600 });
        BenchAnswer answer = bench.Answer();
        Assert.Equal(FindingCode.GapsThroughout, Assert.Single(answer.Findings).Code);
        Assert.All(answer.Levels, l => Assert.True(l.Usable));
    }

    [Fact]
    public void Every_second_code_at_the_top_of_the_ladder_is_a_push() // Published: SEN-49.
    {
        BenchAnswer answer = Sound().ChangePlanes(6400, p => p with { CodeStep = 2, Gaps = 1500 }).Answer();
        Only(answer, 6400, LevelFlag.Arithmetic, FindingCode.Arithmetic, false);
    }

    [Fact]
    public void Every_second_code_one_stop_above_a_full_level_is_a_push_inside_the_ladder_too()
    {
        BenchAnswer answer = Sound().ChangePlanes(3200, p => p with { CodeStep = 2, Gaps = 1500 }).Answer();
        Only(answer, 3200, LevelFlag.Arithmetic, FindingCode.Arithmetic, false);
    }

    /// <summary>Bands are off the correlation when it reaches the analysis; a filter may run along the rows alone, or down the columns.</summary>
    [Theory]
    [InlineData(0.3, 0.3, -0.003)]
    [InlineData(2, 0.12, -0.003)]
    [InlineData(2, -0.003, 0.12)]
    [InlineData(2, 0.2, 0.2)]
    public void A_filter_is_found_behind_bands_along_them_and_across(double banding, double alongRows, double downColumns)
    {
        double noiseDn = ExactBench.ReadNoise(1600) / ExactBench.Gain(1600);
        BenchAnswer answer = Sound().ChangePairPlanes(1600, p => p with { RowNoiseDn = banding * noiseDn, CorrelationX = alongRows, CorrelationY = downColumns }).Answer();
        Level level = answer.Levels.Single(l => l.Iso.Speed == 1600);
        Assert.Contains(LevelFlag.Smoothed, level.Flags);
        Assert.Contains(LevelFlag.Banded, level.Flags);
        Assert.False(level.Usable);
    }

    [Fact]
    public void Blacks_taken_off_in_camera_lower_the_clip_code_and_are_no_pull()
    {
        ExactBench bench = Sound().ChangePlanes(6400, p => p with { ClipDn = 15361, BlackDn = 0.4, MeanRawDn = p.MeanRawDn - 1022, FloorSamples = 2400 });
        Assert.DoesNotContain(LevelFlag.Pulled, bench.Answer().Levels.Single(l => l.Iso.Speed == 6400).Flags);
    }

    [Fact]
    public void Every_fourth_code_inside_the_ladder_is_a_lower_bit_depth()
    {
        BenchAnswer answer = Sound().ChangePlanes(800, p => p with { CodeStep = 4, Gaps = 1500 }).Answer();
        Only(answer, 800, LevelFlag.BitDepth, FindingCode.BitDepth, false);
    }

    [Fact]
    public void A_clip_point_half_as_high_is_a_pulled_iso()
    {
        BenchAnswer answer = Sound().ChangePlanes(100, p => p with { ClipDn = 8700 }).Answer();
        Only(answer, 100, LevelFlag.Pulled, FindingCode.Pulled, false);
    }

    [Fact]
    public void A_low_iso_with_the_gain_of_the_next_is_a_pulled_iso()
    {
        // ISO 50 that is ISO 100 under another label: the bins of ISO 100, given twice the light.
        ExactBench bench = Sound().Add(100, 16, 8, 0);
        string[] added = [.. bench.Frames.TakeLast(2).Select(f => f.Header.File)];
        bench.ChangeFrames(100, f => added.Contains(f.Header.File) ? f with { Header = f.Header with { Iso = 50 } } : f);
        BenchAnswer answer = bench.Answer();
        Level level = answer.Levels.Single(l => l.Iso.Speed == 50);
        Assert.Contains(LevelFlag.Pulled, level.Flags);
        Assert.False(level.Usable);
    }

    [Fact]
    public void Samples_piled_at_the_floor_are_cut_blacks()
    {
        BenchAnswer answer = Sound().ChangePlanes(3200, p => p with { FloorSamples = 2400 }).Answer();
        Only(answer, 3200, LevelFlag.BlackClipped, FindingCode.BlackClipped, false);
    }

    [Fact]
    public void Rows_that_stand_out_are_banding_and_the_level_stays()
    {
        double noiseDn = ExactBench.ReadNoise(1600) / ExactBench.Gain(1600);
        BenchAnswer answer = Sound().ChangePairPlanes(1600, p => p with { RowNoiseDn = 0.3 * noiseDn }).Answer();
        Level level = Only(answer, 1600, LevelFlag.Banded, FindingCode.Banded, true);
        Assert.Equal(0.3 * ExactBench.ReadNoise(1600), level.RowNoiseElectrons!.Value, 1e-3);
        // Derived: independent parts add in squares; read noise itself stays as it was.
        Assert.Equal(ExactBench.ReadNoise(1600), level.ReadNoiseElectrons!.Value.Value, 1e-3);
        Assert.Equal(Math.Sqrt(1.09) * ExactBench.ReadNoise(1600), level.DarkNoiseElectrons!.Value, 1e-3);
        Assert.Equal(level.ReadNoiseDn!.Value / level.ReadNoiseElectrons.Value.Value, level.DarkNoiseDn!.Value / level.DarkNoiseElectrons.Value, 1e-6);
    }

    [Fact]
    public void Hot_pixels_are_counted_and_the_level_stays()
    {
        BenchAnswer answer = Sound().ChangeFrames(100, f => f with { HotPixels = 60 }).Answer();
        Assert.Equal(60, Only(answer, 100, LevelFlag.HotPixels, FindingCode.HotPixels, true).HotPixels);
    }

    [Fact]
    public void A_damaged_file_takes_its_level_off_and_names_the_file()
    {
        ExactBench bench = Sound();
        string file = bench.Frames[4].Header.File;
        bench.ChangeFrames(400, f => f.Header.File == file ? f with { DataErrors = 3 } : f);
        BenchAnswer answer = bench.Answer();
        Only(answer, 400, LevelFlag.Damaged, FindingCode.Damaged, false);
        Assert.Equal(file, Assert.Single(answer.Findings[0].Frames));
    }

    /// <summary>Clipped, pulled, arithmetic, banded, smoothed, shifted and drifting at once: that is what a broken file looks like, and nothing the camera did.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_broken_or_lossy_record_is_given_no_other_diagnosis(bool isLossy)
    {
        ExactBench bench = Sound().ChangeFrames(640, f => f with
        {
            DataErrors = isLossy ? 0 : 7,
            Header = f.Header with { IsLossy = isLossy },
            Planes = [.. f.Planes.Select(p => p with { ClipDn = 9000, ClippedSamples = 48_000, FloorSamples = 2400, Gaps = 600 })],
            Map = f.Map with { MeanRawDn = [.. f.Map.MeanRawDn.Select(b => b < 0 ? b : (float)((b - ExactBench.BlackDn) * 0.7 + ExactBench.BlackDn))] },
        });
        bench.ChangePairs(640, p => p with { ShiftXPx = 3, Planes = [.. p.Planes.Select(q => q with { CorrelationX = 0.3, RowNoiseDn = 20 })] });
        Only(bench.Answer(), 640, isLossy ? LevelFlag.Lossy : LevelFlag.Damaged, isLossy ? FindingCode.Lossy : FindingCode.Damaged, false);
    }

    [Fact]
    public void The_sound_twin_of_a_damaged_frame_is_measured_alone()
    {
        ExactBench bench = Sound();
        PairSurvey pair = bench.Pairs[2];
        bench.Pairs.Remove(pair);
        bench.ChangeFrames(400, f => f.Header.File == pair.First ? f with { DataErrors = 3 } : f with { SingleFrameCurves = pair.Planes });
        BenchAnswer answer = bench.Answer();
        Level level = answer.Levels.Single(l => l.Iso.Speed == 400);
        Assert.True(level.Usable);
        Assert.Equal(LevelFlag.SingleFrame, Assert.Single(level.Flags));
        Assert.Equal(pair.Second, Assert.Single(level.Frames));
        Assert.Equal([FindingCode.Damaged, FindingCode.SingleFrame], answer.Findings.Select(f => f.Code));
        Assert.Equal(pair.First, Assert.Single(answer.Findings[0].Frames));
    }

    /// <summary>Codes that no sensor gave make no 16-bit camera, whether the decoder saw the damage or not, and a dark twin of a damaged frame is no lamp that drifts.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(0)]
    public void A_damaged_frame_tells_neither_the_bits_of_the_camera_nor_a_drift(int errors)
    {
        ExactBench bench = Sound();
        int bits = bench.Answer().Camera!.Bits;
        string file = bench.Frames[4].Header.File;
        bench.ChangeFrames(400, f => f.Header.File != file ? f : f with { DataErrors = errors, Planes = [.. f.Planes.Select(p => p with { MaxDn = 65_535 })] });
        bench.ChangeFrames(400, f => f with { Map = f.Map with { MeanRawDn = [.. f.Map.MeanRawDn.Select(b => b < 0 ? b : (float)((b - ExactBench.BlackDn) * 0.7 + ExactBench.BlackDn))] } });
        BenchAnswer answer = bench.Answer();
        Assert.Equal(bits, answer.Camera!.Bits);
        Assert.Equal(errors == 0, answer.Findings.Any(f => f.Code == FindingCode.LightDrift));
    }

    [Fact]
    public void Lossy_raws_are_refused_one_by_one_and_altogether()
    {
        ExactBench bench = Sound().ChangeFrames(800, f => f with { Header = f.Header with { IsLossy = true } });
        Only(bench.Answer(), 800, LevelFlag.Lossy, FindingCode.Lossy, false);
        foreach (double iso in Isos) bench.ChangeFrames(iso, f => f with { Header = f.Header with { IsLossy = true } });
        BenchAnswer answer = bench.Answer();
        Assert.False(answer.HasAnswer);
        Assert.StartsWith("All frames are lossy", Assert.Single(answer.Findings).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clip_away_from_the_tag_is_told_and_the_clip_seen_is_used()
    {
        ExactBench bench = Sound();
        foreach (double iso in Isos) bench.ChangeFrames(iso, f => f with { Header = f.Header with { WhiteTagDn = 15000 } });
        BenchAnswer answer = bench.Answer();
        Assert.Equal(FindingCode.ClipNotAtTag, Assert.Single(answer.Findings).Code);
        Assert.Equal(50000, answer.Levels[0].SaturationElectrons!.Value, 1);
    }

    [Fact]
    public void A_level_without_a_clip_takes_the_one_of_the_others_and_says_so()
    {
        BenchAnswer answer = Sound().ChangePlanes(200, p => p with { ClipDn = null }).Answer();
        Assert.Contains("seen at the other levels", Assert.Single(answer.Findings, f => f.Code == FindingCode.ClipNotSeen).Text, StringComparison.Ordinal);
        Assert.True(answer.Levels.Single(l => l.Iso.Speed == 200).ClipSeen);
    }

    [Fact]
    public void No_clip_anywhere_rests_on_the_tag_and_says_so()
    {
        ExactBench bench = Sound();
        foreach (double iso in Isos) bench.ChangePlanes(iso, p => p with { ClipDn = null });
        BenchAnswer answer = bench.Answer();
        Assert.Contains("file's tag", Assert.Single(answer.Findings).Text, StringComparison.Ordinal);
        Assert.All(answer.Levels, l => Assert.False(l.ClipSeen));
    }

    [Fact]
    public void Truth_in_the_tag_or_a_lie_in_it_gives_the_same_answer_where_a_clip_is_seen()
    {
        ExactBench lying = Sound();
        foreach (double iso in Isos) lying.ChangeFrames(iso, f => f with { Header = f.Header with { WhiteTagDn = 4095 } });
        Assert.Equal(
            Sound().Answer().Levels.Select(l => (l.GainElectronsPerDn, l.ReadNoiseElectrons, l.SaturationElectrons)),
            lying.Answer().Levels.Select(l => (l.GainElectronsPerDn, l.ReadNoiseElectrons, l.SaturationElectrons)));
    }

    [Fact]
    public void Single_frames_give_a_wider_interval_and_say_so()
    {
        ExactBench bench = Sound();
        PairSurvey pair = bench.Pairs[3];
        string lone = pair.First;
        bench.Pairs.Remove(pair);
        bench.Frames.RemoveAll(f => f.Header.File == pair.Second);
        bench.ChangeFrames(500, f => f with { SingleFrameCurves = pair.Planes });
        Level wide = Only(bench.Answer(), 500, LevelFlag.SingleFrame, FindingCode.SingleFrame, true);
        Estimate paired = Sound().Answer().Levels.Single(l => l.Iso.Speed == 500).ReadNoiseElectrons!.Value;
        Assert.True(wide.ReadNoiseElectrons!.Value.RelativeHalfWidth >= 1.99 * paired.RelativeHalfWidth);
        Assert.Equal(lone, Assert.Single(wide.Frames));
    }
}
