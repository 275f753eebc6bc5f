using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>A level while it is being worked out: shots, fit and what the tests found.</summary>
internal sealed class LevelDraft(LevelShots shots, LadderKind ladder)
{
    private readonly List<LevelFlag> _flags = [];
    private string? _reason;

    /// <summary>Frames and pairs.</summary>
    public LevelShots Shots { get; } = shots;

    /// <summary>Ladder that the level belongs to.</summary>
    public LadderKind Ladder { get; } = ladder;

    /// <summary>Gain, read noise and clip.</summary>
    public LevelFit Fit { get; set; } = LevelFit.None("Not fitted.");

    /// <summary>Light against what the settings promise, stops; null when it cannot be told.</summary>
    public double? LightErrorStops { get; set; }

    /// <summary>The same for each frame.</summary>
    public ImmutableDictionary<string, double> FrameLightErrors { get; set; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Neighbour correlation; null without a pair.</summary>
    public double? NeighbourCorrelation { get; set; }

    /// <summary>Row offset noise of a frame, DN; null when not measured.</summary>
    public double? RowNoiseDn { get; set; }

    /// <summary>Column offset noise of a frame, DN; null when not measured.</summary>
    public double? ColumnNoiseDn { get; set; }

    /// <summary>True until a test fails.</summary>
    public bool IsUsable => _reason is null;

    /// <summary>ISO in words.</summary>
    public string Name => Say.Iso(Shots.Iso);

    /// <summary>Share of samples at the clip level.</summary>
    public double ClippedShare
    {
        get
        {
            double all = Shots.Frames.Sum(f => f.Planes.Sum(p => (double)p.Samples));
            return all > 0 ? Shots.Frames.Sum(f => f.Planes.Sum(p => (double)p.ClippedSamples)) / all : 0;
        }
    }

    /// <summary>How far its first frame's picture lies to the right of and below that of the level that was shot first, sensor pixels.</summary>
    public (double XPx, double YPx) Shift { get; set; }

    /// <summary>Notes something; the level stays usable.</summary>
    public void Note(LevelFlag flag)
    {
        if (!_flags.Contains(flag)) _flags.Add(flag);
    }

    /// <summary>Takes the level off the curve; the first reason stays.</summary>
    public void Fail(LevelFlag flag, string reason)
    {
        Note(flag);
        _reason ??= reason;
    }

    /// <summary>True when the flag was noted.</summary>
    public bool Has(LevelFlag flag) => _flags.Contains(flag);

    /// <summary>The finished level.</summary>
    public Level ToLevel()
    {
        double? gain = Fit.Gain?.Value;
        double? dark = Fit.ReadNoiseDn is { } read && RowNoiseDn is { } rows ? PhotonTransfer.DarkNoiseDn(read * read, rows) : null;
        return new Level
        {
            Iso = Iso.FromSpeed(Shots.Iso),
            Ladder = Ladder,
            Frames = Shots.Files,
            CapFrames = [.. Shots.Caps.Select(c => c.Header.File)],
            ShutterSeconds = Shots.ShutterSeconds,
            FNumber = Shots.FNumber,
            GainElectronsPerDn = Fit.Gain,
            ReadNoiseElectrons = Fit.ReadNoise,
            ReadNoiseDn = Fit.ReadNoiseDn,
            DarkNoiseElectrons = dark * gain,
            DarkNoiseDn = dark,
            ReadNoiseSource = Fit.Source,
            SaturationElectrons = Fit.SaturationElectrons,
            ClipSeen = Fit.ClipSeen,
            LightErrorStops = LightErrorStops,
            NeighbourCorrelation = NeighbourCorrelation,
            RowNoiseElectrons = RowNoiseDn * gain,
            ColumnNoiseElectrons = ColumnNoiseDn * gain,
            ClippedShare = ClippedShare,
            HotPixels = Shots.Frames.Sum(f => f.HotPixels) / Shots.Frames.Length,
            HotPixelsSearched = Shots.Frames.Sum(f => f.HotPixelsSearched) / Shots.Frames.Length,
            ShiftXPx = Shift.XPx,
            ShiftYPx = Shift.YPx,
            MeanSignalElectrons = Fit.MeanGreenSignalDn * gain,
            Planes = Fit.Planes,
            Curve = Fit.Curve,
            Usable = IsUsable,
            Flags = [.. _flags],
            Reason = _reason,
        };
    }
}
