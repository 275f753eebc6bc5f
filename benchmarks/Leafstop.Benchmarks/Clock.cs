using System.Diagnostics;

namespace Leafstop.Benchmarks;

/// <summary>Times a piece of work.</summary>
internal static class Clock
{
    /// <summary>The shortest of several times, in seconds, after one that does not count.</summary>
    public static double Best(int times, Action work)
    {
        work();
        double best = double.PositiveInfinity;
        for (int i = 0; i < times; i++)
        {
            long start = Stopwatch.GetTimestamp();
            work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalSeconds);
        }

        return best;
    }
}
