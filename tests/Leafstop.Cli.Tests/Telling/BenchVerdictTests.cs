using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Derived: the words follow from the answer by rule.</summary>
public sealed class BenchVerdictTests
{
    [Fact]
    public void A_ladder_without_a_fault_is_called_sound_and_the_step_is_named_by_its_pair()
    {
        BenchVerdict verdict = BenchVerdict.Of(BodyABench.Metered());
        Assert.Equal("A sound metered ladder.", verdict.Sentence);
        Assert.Equal("Read noise drops from 3.1 to 1.6 electrons between ISO\u00A0400 and 500: that is the step of this camera.", verdict.Second.Text);
        Assert.Equal(HowKnown.Measured, verdict.Second.Known);
        Assert.Contains("Read noise to ±\u00A04\u00A0%", verdict.HowSure!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_to_reshoot_is_named_in_the_verdict() =>
        Assert.Equal("A metered ladder. Shoot ISO\u00A01600 again.", BenchVerdict.Of(BodyABench.DriftingLampAndHelpfulCamera()).Sentence);

    [Fact]
    public void A_top_level_that_is_left_off_shortens_the_ladder()
    {
        BenchAnswer answer = BodyABench.DriftingLampAndHelpfulCamera();
        answer = answer with { Findings = [.. answer.Findings.Where(f => !f.Reshoot)] };
        Assert.Equal("A metered ladder, sound up to ISO\u00A03200.", BenchVerdict.Of(answer).Sentence);
    }

    [Fact]
    public void The_same_light_in_all_is_never_taken_for_an_answer_to_how_high()
    {
        BenchVerdict verdict = BenchVerdict.Of(BodyABench.SameLight());
        Assert.Equal("The same light in all: this answers dial or lift, not how high you can go.", verdict.Sentence);
        Assert.Equal("Stop at ISO\u00A0500 and lift the rest.", verdict.Second.Text);
    }

    [Fact]
    public void Without_a_usable_level_it_says_that_it_cannot_and_why()
    {
        BenchVerdict verdict = BenchVerdict.Of(BodyABench.NothingUsable());
        Assert.Equal("I cannot measure this camera: both levels are left off.", verdict.Sentence);
        Assert.Equal("The tripod moved between the two frames by 1.2 px.", verdict.Second.Text);
        Assert.Null(verdict.HowSure);
        Assert.StartsWith("I cannot measure this camera: there are only JPEGs", BenchVerdict.Of(BodyABench.JpegOnly()).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Levels_without_a_rule_make_no_ladder() =>
        Assert.Equal("I measured ISO\u00A0100 and 800, but they make no ladder.", BenchVerdict.Of(BodyABench.NoLadder()).Sentence);

    [Fact]
    public void More_than_three_levels_to_reshoot_are_counted_and_a_missing_one_is_said()
    {
        BenchAnswer sound = BodyABench.Metered();
        Finding drift = new(FindingCode.LightDrift, [.. new double[] { 100, 200, 400, 800, 1600 }.SelectMany(BodyABench.Files)], "The lamp drifted.", Reshoot: true);
        Assert.Equal("A metered ladder. Shoot five levels again.", BenchVerdict.Of(sound with { Findings = [drift] }).Sentence);
        // One level or three: the finding counts them, the verdict must be true of both.
        Finding missing = new(FindingCode.MissingLevel, [], "Missing in the ladder: ISO 400 and 800. Shoot two frames of each.", Reshoot: true);
        Assert.Equal("A metered ladder. It is not complete: shoot what is missing.", BenchVerdict.Of(sound with { Findings = [missing] }).Sentence);
    }

    /// <summary>Shooting again is no remedy for a file that is there and cannot be read. 18 frames and 18 cap frames are in the answer, 2 are not.</summary>
    [Fact]
    public void Files_that_could_not_be_read_are_counted_before_anything_is_to_be_shot_again()
    {
        BenchAnswer drifting = BodyABench.DriftingLampAndHelpfulCamera();
        Finding shut = new(FindingCode.Unreadable, ["/bench/kitchen/X.dng"], "X.dng: There is no permission to read it."), cut = shut with { Frames = ["/bench/kitchen/Y.dng"] };
        Assert.Equal(
            "A metered ladder. 2 of 38 files could not be read whole: see to them and measure again before you shoot anything again.",
            BenchVerdict.Of(drifting with { Findings = [.. drifting.Findings, shut, cut] }).Sentence);
        Assert.Equal(
            "A metered ladder. 1 of 37 files could not be read whole: see to it and measure again before you shoot anything again.",
            BenchVerdict.Of(drifting with { Findings = [shut, .. drifting.Findings] }).Sentence);
    }

    [Fact]
    public void A_folder_that_went_away_is_in_the_verdict_with_and_without_an_answer()
    {
        BenchAnswer sound = BodyABench.Metered();
        Finding gone = new(FindingCode.FolderGone, ["/bench/kitchen/X.dng", "/bench/kitchen/Y.dng"], "The folder went away while it was read.");
        Assert.Equal(
            "A metered ladder. The folder went away while it was read: 2 of 38 files are not measured. Put it back and measure again.",
            BenchVerdict.Of(sound with { Findings = [gone] }).Sentence);
        BenchVerdict nothing = BenchVerdict.Of(sound with { Levels = [], Findings = [gone] });
        Assert.Equal("I cannot measure this camera: the folder went away while it was read.", nothing.Sentence);
        Assert.StartsWith("Put it back", nothing.Second.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void No_surface_calls_a_limit_the_persons_own()
    {
        foreach (string told in Surfaces.Of(BodyABench.Metered()).Concat(Surfaces.Of(BodyABench.DriftingLampAndHelpfulCamera())))
        {
            foreach (string own in new[] { "your limit", "my limit", "your clean", "my clean", "your stretch", "my stretch", "yours", "mine" })
                Assert.DoesNotContain(own, told, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void The_verdict_is_the_same_on_every_surface()
    {
        foreach (BenchAnswer answer in new[] { BodyABench.Metered(), BodyABench.DriftingLampAndHelpfulCamera(), BodyABench.SameLight(), BodyABench.NothingUsable(), BodyABench.JpegOnly(), BodyABench.NoLadder() })
        {
            string verdict = Surfaces.Flat(BenchVerdict.Of(answer).Sentence);
            Assert.All(Surfaces.Of(answer), told => Assert.Contains(verdict, Surfaces.Flat(told), StringComparison.Ordinal));
        }
    }
}
