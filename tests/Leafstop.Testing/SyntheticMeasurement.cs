using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Testing;

/// <summary>Measures synthetic ladders in memory by the code that measures files: only reading from disk is left out.</summary>
public static class SyntheticMeasurement
{
    /// <summary>The print that limits are asked for in tests: 60 cm wide seen from 60 cm.</summary>
    public static readonly PrintCondition Print = new(600, 600);

    /// <summary>The answer of the bench test. A frame is named "ladder:index".</summary>
    public static BenchAnswer Answer(params SampleOptions[] ladders)
    {
        SyntheticBench[] benches = [.. ladders.Select(l => new SyntheticBench(l))];
        var planned = benches.SelectMany((bench, ladder) => bench.Frames.Select(frame => (Name: $"{ladder}:{frame.Index}", Ladder: ladder, Frame: frame)));
        Dictionary<string, (int Ladder, int Index)> byName = planned.ToDictionary(p => p.Name, p => (p.Ladder, p.Frame.Index));
        GroupSurvey[] groups =
        [
            .. planned.GroupBy(p => (p.Frame.Iso, p.Frame.ShutterMarkSeconds)).Select(level => GroupMeasurement.Survey([.. level.Select(p => p.Name)], Open)),
        ];
        return BenchAnalysis.Of([.. groups.SelectMany(g => g.Frames)], [.. groups.SelectMany(g => g.Pairs)], ImmutableArray<Finding>.Empty, Print);

        MosaicFrame Open(string name)
        {
            var (ladder, index) = byName[name];
            MosaicFrame frame = benches[ladder].Render(index, threads: benches[ladder].Options.Width > 4000 ? 0 : 1);
            return new MosaicFrame(frame)
            {
                Header = frame.Header with { File = name },
                Samples = frame.Samples,
                Stride = frame.Stride,
                Left = frame.Left,
                Top = frame.Top,
                MaskedAreas = frame.MaskedAreas,
                TagBlackDn = frame.TagBlackDn,
                LibraryBlackDn = frame.LibraryBlackDn,
            };
        }
    }
}
