using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Derived: what is said of a number follows from what the level says of it.</summary>
public sealed class SourcesTests
{
    [Fact]
    public void Every_statement_with_a_number_says_measured_worked_out_or_rule_of_thumb()
    {
        Statement[] told = [.. Sources.Of(BodyABench.Metered())];
        Assert.All(told, s => Assert.NotNull(s.Known));
        Assert.Equal(["measured", "rule of thumb", "worked out"], told.Select(s => Statement.Word(s.Known!.Value)).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void One_frame_is_not_called_two()
    {
        Level single = BodyABench.Level(100) with { Flags = [LevelFlag.SingleFrame] };
        Statement gain = Assert.Single(Sources.Of(BodyABench.Metered() with { Levels = [single] }), s => s.Text.StartsWith("Gain", StringComparison.Ordinal));
        Assert.Contains("one frame", gain.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("two frames", gain.Text, StringComparison.Ordinal);
        string[] both = [.. Sources.Of(BodyABench.Metered() with { Levels = [single, BodyABench.Level(400)] }).Select(s => Surfaces.Flat(s.Text)).Where(s => s.StartsWith("Gain", StringComparison.Ordinal))];
        Assert.Equal(["Gain at ISO 400", "Gain at ISO 100"], both.Select(s => s[..15]));
    }

    [Fact]
    public void Read_noise_from_cap_frames_and_from_the_curve_are_told_apart_by_level()
    {
        BenchAnswer sound = BodyABench.Metered();
        BenchAnswer answer = sound with { Levels = [.. sound.Levels.Select(l => l.Iso.Speed <= 200 ? l with { ReadNoiseSource = ReadNoiseSource.Fit } : l)] };
        string[] told = [.. Sources.Of(answer).Select(s => Surfaces.Flat(s.Text))];
        Assert.Contains("Read noise at ISO 100 and 200 is the foot of the noise curve, extended to no light; cap frames would tell it better.", told);
        Assert.Contains("Read noise at ISO 400, 500, 640, 800, 1600, 3200 and 6400 is the noise of the cap frames.", told);
    }

    [Fact]
    public void Black_that_was_not_measured_is_not_called_measured_and_the_least_certain_plane_speaks()
    {
        Level level = BodyABench.Level(100);
        ImmutableArray<PlaneModel> planes = level.Planes.SetItem(3, level.Planes[3] with { BlackSource = BlackSource.LibraryInteger });
        Statement black = Assert.Single(Sources.Of(BodyABench.Metered() with { Levels = [level with { Planes = planes }] }), s => s.Text.StartsWith("Black", StringComparison.Ordinal));
        Assert.Null(black.Known);
        Assert.Contains("it was not measured", black.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clip_that_was_not_seen_is_worked_out_from_the_tag()
    {
        BenchAnswer answer = BodyABench.Metered() with { Levels = [BodyABench.Level(100) with { ClipSeen = false }] };
        Statement clip = Assert.Single(Sources.Of(answer), s => s.Text.StartsWith("No clip", StringComparison.Ordinal));
        Assert.Equal(HowKnown.WorkedOut, clip.Known);
        Assert.Contains("Clip, range and S/N: worked out.", Surfaces.Text(answer), StringComparison.Ordinal);
    }
}
