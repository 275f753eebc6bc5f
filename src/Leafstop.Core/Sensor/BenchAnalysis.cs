
namespace Leafstop.Core.Sensor;

/// <summary>Turns the statistics of a folder into the answer of a bench test.</summary>
public static class BenchAnalysis
{
    /// <summary>Reads the ladder, fits each level, runs the honesty tests and works out what follows.</summary>
    /// <param name="frames">Every frame that could be read.</param>
    /// <param name="pairs">Every pair that was formed of them.</param>
    /// <param name="earlier">Findings of the reading itself (unreadable files, strays), which the answer repeats.</param>
    /// <param name="print">The print that predicted limits are asked for.</param>
    public static BenchAnswer Of(
        IReadOnlyList<FrameSurvey> frames,
        IReadOnlyList<PairSurvey> pairs,
        IReadOnlyList<Finding> earlier,
        PrintCondition print) => new() { Ladder = LadderKind.None, Levels = [], Findings = [.. earlier] };
}
