using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Judging;

/// <summary>Whether a difference between two ISOs was seen.</summary>
/// <param name="Cleaner">The lower ISO.</param>
/// <param name="Noisier">The higher ISO.</param>
/// <param name="Right">Right answers; of the ties half, rounded down.</param>
/// <param name="Ties">"The same".</param>
/// <param name="Answers">All answers.</param>
/// <param name="ByGuessing">The chance that guessing is right as often.</param>
/// <param name="Interval">The share right with its 95 % interval (Clopper and Pearson, PSY-19).</param>
public sealed record SideBySideResult(Iso Cleaner, Iso Noisier, int Right, int Ties, int Answers, Chance ByGuessing, KeeperTrial Interval)
{
    /// <summary>True when guessing would be right as often in less than 1 of 20 checks.</summary>
    public bool IsSeen => ByGuessing.Share < 0.05;

    /// <summary>d′; null where none or all were right.</summary>
    public double? Separation => Right > 0 && Right < Answers ? ChoiceOfTwo.Separation(Chance.Of((double)Right / Answers)) : null;

    /// <summary>The result in words; it says that this is no limit.</summary>
    public string ToSentence()
    {
        string count = $"{Right} of {Answers} right{(Ties > 0 ? $", {Ties} ties counted as half" : "")}";
        string seen = IsSeen
            ? $"A difference between ISO {Cleaner.ToDisplay()} and {Noisier.ToDisplay()} is seen ({count}; guessing does as well in {ByGuessing.ToDisplay()} of checks)."
            : $"No difference between ISO {Cleaner.ToDisplay()} and {Noisier.ToDisplay()} was shown ({count}; guessing does as well in {ByGuessing.ToDisplay()} of checks). A small one may still be there.";
        return seen + " This tells only whether a difference is seen; it is no limit.";
    }

    /// <summary>Reads the counts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Counts that cannot be.</exception>
    public static SideBySideResult Of(Iso cleaner, Iso noisier, int right, int ties, int answers)
    {
        if (right < 0 || ties < 0 || right + ties > answers)
            throw new ArgumentOutOfRangeException(nameof(right), right, "Right answers and ties are at most all answers.");
        int counted = right + ties / 2;
        return new SideBySideResult(cleaner, noisier, counted, ties, answers, ChoiceOfTwo.OfGuessing(counted, answers), KeeperTrial.Of(counted, answers));
    }
}
