using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Derived: which pairs answer the question follows from the step and the ISO to stop at.</summary>
public sealed partial class LiftPairsTests
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400];

    private static BenchAnswer Answer() => BodyABench.Metered() with
    {
        StopAt = BodyABench.Speed(500),
        GainSteps = [new GainStep(BodyABench.Speed(400), BodyABench.Speed(500), 2, 100)],
        LiftOrDial = [.. from shot in new double[] { 100, 400, 500 } from to in Isos where to > shot select Pair(shot, to)],
    };

    [Fact]
    public void The_few_are_the_step_the_base_and_three_from_the_iso_to_stop_at()
    {
        LiftPairs pairs = LiftPairs.Of(Answer());
        Assert.Equal(
            [(100, 500), (400, 500), (500, 640), (500, 1600), (500, 6400)],
            pairs.Few.Select(p => ((int)p.Shot.Speed, (int)p.LiftedTo.Speed)));
        Assert.Equal(Answer().LiftOrDial.Length, pairs.Few.Count + pairs.Rest.Count);
    }

    [Fact]
    public void A_terminal_shows_the_few_or_all_and_says_where_the_rest_is()
    {
        string few = Surfaces.Text(Answer()), all = Surfaces.Text(Answer(), allPairs: true);
        Assert.Contains("14 more pairs with leafstop measure --all-pairs, in its --json and in its --report.", Surfaces.Flat(few), StringComparison.Ordinal);
        Assert.DoesNotContain("--all-pairs", all, StringComparison.Ordinal);
        Assert.Equal((5, 19), (Rows().Count(few), Rows().Count(all)));
    }

    [Fact]
    public void Few_pairs_are_not_parted()
    {
        ImmutableArray<LiftOrDial> six = [.. Answer().LiftOrDial.Take(6)];
        LiftPairs pairs = LiftPairs.Of(Answer() with { LiftOrDial = six });
        Assert.Equal((6, 0), (pairs.Few.Count, pairs.Rest.Count));
    }

    /// <summary>Two ISOs at the beginning of a line.</summary>
    [GeneratedRegex("^ +[0-9]{3} +[0-9]{3,4}  ", RegexOptions.Multiline)]
    private static partial Regex Rows();

    private static LiftOrDial Pair(double shot, double to) =>
        new(BodyABench.Speed(shot), BodyABench.Speed(to), Math.Log2(to / shot), [new LiftLoss(0, 0, 0.01), new LiftLoss(-5, 0.1, 0.2)]);
}
