using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>The answer to "which is noisier?".</summary>
public enum SideReply
{
    /// <summary>The left one.</summary>
    Left,

    /// <summary>The right one.</summary>
    Right,

    /// <summary>Both the same: counted as half right.</summary>
    Same,
}

/// <summary>Two pictures to set side by side, as a surface may know them.</summary>
/// <param name="Token">Stands for the trial.</param>
/// <param name="Number">1 and up.</param>
/// <param name="Of">How many there will be.</param>
/// <param name="Region">The crop to show of both.</param>
/// <param name="IsMirrored">True when both are shown left to right.</param>
public sealed record SideBySideTrial(string Token, int Number, int Of, CropRegion Region, bool IsMirrored);

/// <summary>What stands on which side; for the host that makes the pictures.</summary>
/// <param name="Left">On the left.</param>
/// <param name="Right">On the right.</param>
/// <param name="IsSecondFrameLeft">True when the left one is the second frame of its pair, where there is a pair.</param>
/// <param name="IsSecondFrameRight">True when the right one is the second frame of its pair, where there is a pair.</param>
/// <remarks>Frames are drawn anew for each trial: with one frame a level the grain itself would be recognised, and who calls the same grain noisier every time would be all right or all wrong
/// without seeing a difference of strength.</remarks>
public sealed record SideBySidePictures(Iso Left, Iso Right, bool IsSecondFrameLeft, bool IsSecondFrameRight);

/// <summary>A short check whether any difference between two ISOs is seen at all. It never gives a limit.</summary>
/// <remarks>The number of trials is fixed before the first one, because to stop as soon as the answer pleases would make guessing look like seeing.</remarks>
public sealed class SideBySideCheck
{
    /// <summary>Trials when nothing else is asked for: 15 of 20 right happen to 2 in 100 who guess.</summary>
    public const int UsualTrials = 20;

    /// <summary>The question as it is asked.</summary>
    public const string Question = "Which is noisier?";

    private readonly long _seed;
    private readonly int _trials;
    private readonly IReadOnlyList<CropRegion> _regions;
    private readonly List<SideReply> _replies = [];

    private SideBySideCheck(long seed, Iso cleaner, Iso noisier, ToneKind tone, int trials)
    {
        (_seed, Cleaner, Noisier, _trials) = (seed, cleaner, noisier, trials);
        _regions = CropRegions.For(tone);
    }

    /// <summary>The lower ISO.</summary>
    public Iso Cleaner { get; }

    /// <summary>The higher ISO.</summary>
    public Iso Noisier { get; }

    /// <summary>Answers so far, in order: with the same seed they bring a check back.</summary>
    public ImmutableArray<SideReply> Replies => [.. _replies];

    /// <summary>Begins a check, or goes on with one.</summary>
    /// <param name="seed">Decides the sides.</param>
    /// <param name="cleaner">The lower ISO.</param>
    /// <param name="noisier">The higher ISO.</param>
    /// <param name="tone">Which crops are shown.</param>
    /// <param name="trials">10 to 200.</param>
    /// <param name="replies">Answers given before.</param>
    /// <exception cref="ArgumentException">ISOs in the wrong order, a number of trials out of range, or more answers than trials.</exception>
    public static SideBySideCheck Begin(long seed, Iso cleaner, Iso noisier, ToneKind tone, int trials = UsualTrials, IEnumerable<SideReply>? replies = null)
    {
        if (cleaner >= noisier)
            throw new ArgumentException("The first ISO is below the second.", nameof(cleaner));
        if (trials is < 10 or > 200)
            throw new ArgumentOutOfRangeException(nameof(trials), trials, "A check has 10 to 200 trials.");
        SideBySideCheck check = new(seed, cleaner, noisier, tone, trials);
        check._replies.AddRange(replies ?? []);
        return check._replies.Count <= trials ? check : throw new ArgumentException("There are more answers than trials.", nameof(replies));
    }

    /// <summary>The next trial; null when all are answered.</summary>
    public SideBySideTrial? Next()
    {
        int number = _replies.Count + 1;
        return number > _trials ? null : new SideBySideTrial(
            Token(number), number, _trials, _regions[SeededDraw.Below(_regions.Count, _seed, "side region", number)], SeededDraw.Below(2, _seed, "side mirrored", number) == 1);
    }

    /// <summary>What stands where in the next trial.</summary>
    /// <exception cref="ArgumentException">The token is not that of the next trial.</exception>
    public SideBySidePictures Pictures(string token)
    {
        int number = Expected(token);
        (Iso left, Iso right) = IsNoisierLeft(number) ? (Noisier, Cleaner) : (Cleaner, Noisier);
        return new(left, right, SeededDraw.Below(2, _seed, "side frame left", number) == 1, SeededDraw.Below(2, _seed, "side frame right", number) == 1);
    }

    /// <summary>Takes the answer to the next trial.</summary>
    /// <exception cref="ArgumentException">The token is not that of the next trial.</exception>
    public void Answer(string token, SideReply reply)
    {
        Expected(token);
        _replies.Add(reply);
    }

    /// <summary>Takes the last answer back; false when there is none.</summary>
    public bool Undo()
    {
        if (_replies.Count == 0)
            return false;
        _replies.RemoveAt(_replies.Count - 1);
        return true;
    }

    /// <summary>What the answers say; null before all are given.</summary>
    public SideBySideResult? Result()
    {
        if (_replies.Count < _trials)
            return null;
        int right = _replies.Where((reply, i) => reply == (IsNoisierLeft(i + 1) ? SideReply.Left : SideReply.Right)).Count();
        return SideBySideResult.Of(Cleaner, Noisier, right, _replies.Count(r => r == SideReply.Same), _trials);
    }

    private bool IsNoisierLeft(int number) => SeededDraw.Below(2, _seed, "side", number) == 0;

    private int Expected(string token) => Next() is { } trial && trial.Token == token
        ? trial.Number
        : throw new ArgumentException("These pictures are not the ones to be judged now: they were answered already, or belong to another check.", nameof(token));

    private string Token(int number) => SeededDraw.Bits(_seed, "side token", number).ToString("x16", CultureInfo.InvariantCulture);
}
