using Leafstop.Cli.Telling.Judging;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Judgements;
using Leafstop.Testing.Judging;

namespace Leafstop.Cli.Tests.Telling;

public sealed class JudgingHistoryTests
{
    private static readonly DateTimeOffset Morning = new(2026, 11, 21, 7, 0, 0, TimeSpan.Zero);

    private static readonly JudgingLadder Ladder = JudgingLadder.Of(((double[])[100, 200, 400, 800, 1600, 3200, 6400, 12800]).Select(s => new LadderIso(Iso.FromSpeed(s), true)));

    /// <summary>Derived: two judgings of one print that differ in the lift both speak, and the history says which a plan asks.</summary>
    [Fact]
    public void Of_two_that_differ_in_the_lift_the_newer_one_answers_first()
    {
        KeptJudging older = Judged(1, 4), newer = Judged(2, 2);
        string told = JudgingTelling.HistoryText("Body A", [older, newer], [newer, older], 400);
        string[] lines = told.Split('\n');
        Assert.Contains("the dark lifted by 4 stops", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("Counts for this lift; a plan asks the newer one of another lift first.", lines[0], StringComparison.Ordinal);
        Assert.Contains("the dark lifted by 2 stops", lines[1], StringComparison.Ordinal);
        Assert.EndsWith(" Counts.", lines[1], StringComparison.Ordinal);
        // What the sentence says is what a plan does.
        Assert.Same(newer, LimitChoice.Nearest([newer, older], j => j.Result.Tags, j => j.Result.HasBothLimits, new LimitUse { Print = older.Result.Tags.Print }));
    }

    // Derived: a strip that was refused at no level tells no clean limit; the full judging of the other lift has both.
    [Fact]
    public void A_full_judging_is_asked_before_a_newer_half_one_of_another_lift()
    {
        KeptJudging full = Judged(1, 4), half = Half(Judged(2, 2), Judged(3, 2)), third = Judged(4, 2);
        Assert.True(full.Result.HasBothLimits);
        Assert.True(half.Result.HasLimits);
        Assert.False(half.Result.HasBothLimits);
        string[] lines = JudgingTelling.HistoryText("Body A", [full, half], [half, full], 2000).Split('\n');
        Assert.EndsWith(" Counts.", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("Counts for this lift; a plan asks the older one of another lift first, which has both limits.", lines[1], StringComparison.Ordinal);
        Assert.Contains("Clean: above the noisiest shown", lines[1], StringComparison.Ordinal);
        LimitUse use = new() { Print = full.Result.Tags.Print };
        Assert.Same(full, Nearest([half, full], use));
        // A lift that is asked goes before that, and both limits decide between equals of it.
        Assert.Same(half, Nearest([half, full], use with { Lift = Stops.Of(2) }));
        Assert.Same(third, Nearest([half, third, full], use with { Lift = Stops.Of(2) }));

        static KeptJudging? Nearest(KeptJudging[] judged, LimitUse use) => LimitChoice.Nearest(judged, j => j.Result.Tags, j => j.Result.HasBothLimits, use);
    }

    /// <summary>The stretch limit of a judging, with a clean one that was not reached.</summary>
    private static KeptJudging Half(KeptJudging judged, KeptJudging other)
    {
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(other.Seed, Ladder, judged.Result.Tags));
        new SimulatedObserver((int)other.Seed) { SpreadStops = 0.3, CleanStops = 40, StretchStops = 5, Lapse = 0 }.Judge(session);
        return judged with { Result = judged.Result with { Clean = session.Result().Clean } };
    }

    private static KeptJudging Judged(int day, double lift)
    {
        LimitTags tags = new("Invented Body A, 14-bit raw, 8256 pixels across", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(lift));
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(day, Ladder, tags));
        new SimulatedObserver(day) { SpreadStops = 0.3 }.Judge(session);
        return KeptJudging.Of(session, Morning.AddDays(day), Morning.AddDays(day));
    }
}
