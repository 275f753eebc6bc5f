using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The frames of one level: one ISO, one shutter, one aperture, with the cap frames of the same ISO.</summary>
internal sealed record LevelShots
{
    /// <summary>ISO as stated.</summary>
    public required double Iso { get; init; }

    /// <summary>Exposure time as stated, seconds; null when not stated.</summary>
    public double? ShutterSeconds { get; init; }

    /// <summary>f-number as stated; null when not stated.</summary>
    public double? FNumber { get; init; }

    /// <summary>Frames with light, in order of exposure.</summary>
    public required ImmutableArray<FrameSurvey> Frames { get; init; }

    /// <summary>Pairs with light.</summary>
    public required ImmutableArray<PairSurvey> Pairs { get; init; }

    /// <summary>Cap frames at this ISO.</summary>
    public required ImmutableArray<FrameSurvey> Caps { get; init; }

    /// <summary>Pairs of cap frames at this ISO.</summary>
    public required ImmutableArray<PairSurvey> CapPairs { get; init; }

    /// <summary>Paths of the frames with light.</summary>
    public ImmutableArray<string> Files => [.. Frames.Select(f => f.Header.File)];

    /// <summary>Pairs that show the same framing.</summary>
    public IEnumerable<PairSurvey> TruePairs => Pairs.Where(p => !p.IsFalsePair);

    /// <summary>The exposure that the settings give apart from ISO, log2 of seconds over f-number squared; a missing aperture counts as one that stays.</summary>
    public double? SettingsLight => ShutterSeconds is { } t ? Math.Log2(t) - 2 * Math.Log2(FNumber ?? 1) : null;

    /// <summary>Middle of the capture times; null when no frame has one.</summary>
    public DateTime? TakenAt
    {
        get
        {
            DateTime[] times = [.. Frames.Where(f => f.Header.TakenAt is not null).Select(f => f.Header.TakenAt!.Value).Order()];
            return times.Length == 0 ? null : times[times.Length / 2];
        }
    }

    /// <summary>The same level with only some of its frames.</summary>
    public LevelShots Only(IReadOnlyCollection<string> files) => this with
    {
        Frames = [.. Frames.Where(f => files.Contains(f.Header.File))],
        Pairs = [.. Pairs.Where(p => files.Contains(p.First) && files.Contains(p.Second))],
    };
}
