using System.Globalization;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Testing;

/// <summary>Measures a synthetic ladder in memory by the code that measures files: only reading from disk is left out.</summary>
public static class SyntheticMeasurement
{
    /// <summary>The print that limits are asked for in tests: 60 cm wide seen from 60 cm.</summary>
    public static readonly PrintCondition Print = new(600, 600);

    /// <summary>The answer of the bench test.</summary>
    public static BenchAnswer Answer(SampleOptions options)
    {
        var bench = new SyntheticBench(options);
        GroupSurvey[] groups =
        [
            .. bench.Frames.GroupBy(f => f.Iso).Select(level => GroupMeasurement.Survey(
                [.. level.Select(f => f.Index.ToString(CultureInfo.InvariantCulture))],
                index => bench.Render(int.Parse(index, CultureInfo.InvariantCulture), threads: 1))),
        ];
        return BenchAnalysis.Of([.. groups.SelectMany(g => g.Frames)], [.. groups.SelectMany(g => g.Pairs)], [], Print);
    }
}
