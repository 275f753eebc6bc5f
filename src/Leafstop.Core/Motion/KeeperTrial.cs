using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Motion;

/// <summary>What a short run of frames, each marked keep or no, tells about the next ones.</summary>
/// <remarks>Clopper and Pearson, Biometrika 26 (1934) 404: the ends of the interval are quantiles of the beta distribution, B(0.025; k, n−k+1)
/// and B(0.975; k+1, n−k). It is never too short for a steady chance and fresh tries. When none or all were kept only one end says
/// anything, and it is the one-sided 95 % bound, 1 − 0.05^(1/n) or 0.05^(1/n); an interval that may be either kind covers at least
/// 92.5 %. Frames of one gust are one try and make it look surer than it is.</remarks>
public sealed record KeeperTrial
{
    private const double TailOfTwo = 0.025;
    private const double TailOfOne = 0.05;

    private KeeperTrial(int kept, int frames) => (Kept, Frames) = (kept, frames);

    /// <summary>Frames marked keep.</summary>
    public int Kept { get; }

    /// <summary>Frames marked at all.</summary>
    public int Frames { get; }

    /// <summary>The share kept; null when none was, because none says only what the chance is not.</summary>
    public Chance? Best => Kept == 0 ? null : Chance.Of((double)Kept / Frames);

    /// <summary>Lower end of the 95 % interval of the chance of one frame; 0 when none was kept.</summary>
    public required Chance Low { get; init; }

    /// <summary>Upper end of the 95 % interval of the chance of one frame; 1 when all were kept.</summary>
    public required Chance High { get; init; }

    /// <summary>True when only one end was measured: none or all were kept, and that end is a one-sided 95 % bound.</summary>
    public bool IsOneSided => Kept == 0 || Kept == Frames;

    /// <summary>Reads a trial.</summary>
    /// <param name="kept">Frames marked keep, 0 to all.</param>
    /// <param name="frames">Frames marked at all, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">No frame, or more kept than there were.</exception>
    public static KeeperTrial Of(int kept, int frames)
    {
        if (frames < 1)
            throw new ArgumentOutOfRangeException(nameof(frames), frames, "A trial has at least one frame.");
        if (kept < 0 || kept > frames)
            throw new ArgumentOutOfRangeException(nameof(kept), kept, $"Of {frames} frames between 0 and {frames} can be kept.");
        return new KeeperTrial(kept, frames)
        {
            Low = Chance.Of(kept == 0 ? 0
                : kept == frames ? Math.Pow(TailOfOne, 1.0 / frames)
                : Beta.InvCDF(kept, frames - kept + 1, TailOfTwo)),
            High = Chance.Of(kept == frames ? 1
                : kept == 0 ? 1 - Math.Pow(TailOfOne, 1.0 / frames)
                : Beta.InvCDF(kept + 1, frames - kept, 1 - TailOfTwo)),
        };
    }

    /// <summary>Frames still to shoot until at least one more is kept, with the chance asked for.</summary>
    /// <param name="sure">How sure to be, below 1; see <see cref="Chance.UsuallySure"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Certainty was asked for.</exception>
    public FramesNeeded StillNeeded(Chance sure) => new(
        Best is { } best ? FrameOdds.FramesFor(best, sure) : null,
        FrameOdds.FramesFor(High, sure),
        FrameOdds.FramesFor(Low, sure));

    /// <summary>The trial in a sentence: "5 of 25 kept: about 14 more for a 95 % chance of one (could be 6 to 43).", "0 of 10 kept: cannot
    /// say how many more; the chance of a frame may be anything up to 26 %."</summary>
    /// <param name="sure">How sure to be, below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Certainty was asked for.</exception>
    public string ToSentence(Chance sure)
    {
        FramesNeeded more = StillNeeded(sure);
        string trial = $"{Kept} of {Frames} kept";
        if (more.Best is not { } best)
            return $"{trial}: cannot say how many more; the chance of a frame may be anything up to {High.ToDisplay()}.";
        string range = (more.Fewest, more.Most) switch
        {
            ({ } few, { } many) when few == many => "",
            ({ } few, { } many) => $" (could be {few} to {many})",
            ({ } few, null) => $" (could be {few}, or too many to count)",
            _ => "",
        };
        return $"{trial}: about {best} more for a {sure.ToDisplay()} chance of one{range}.";
    }
}

/// <summary>Frames still to shoot, with the interval of the trial behind them.</summary>
/// <param name="Best">From the share kept; null: cannot say.</param>
/// <param name="Fewest">From the upper end of the chance.</param>
/// <param name="Most">From the lower end of the chance; null: unbounded, cannot say.</param>
public readonly record struct FramesNeeded(int? Best, int? Fewest, int? Most);
