using System.Collections.Immutable;
using System.Globalization;

namespace Leafstop.Core.Judging;

/// <summary>A crop of a paper strip behind its letter.</summary>
/// <param name="Letter">One capital letter.</param>
/// <param name="Shown">What it shows.</param>
/// <param name="IsBlank">True for the blank check.</param>
/// <param name="IsSecondFrameFirst">True when the second frame of the pair is shown or weighs more: a repeat is another grain of the same level.</param>
public sealed record CodedLevel(string Letter, ShownLevel Shown, bool IsBlank, bool IsSecondFrameFirst);

/// <summary>The key of a paper strip: letters drawn for the levels by a seed, some levels twice and never beside themselves, with a blank check.</summary>
/// <remarks>The same seed and ladder always give the same key, so a strip that carries its number can be read years later.</remarks>
public sealed record BlindCodes
{
    /// <summary>I and O are left out: on paper they are taken for figures.</summary>
    public const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

    // Four draws of nine will do for a strip of eight levels, two of eleven for the shortest, which has three.
    private const int MostDraws = 1000;

    private BlindCodes(long seed, JudgingLadder ladder, ImmutableArray<CodedLevel> codes) => (Seed, Ladder, Codes) = (seed, ladder, codes);

    /// <summary>Number of the strip.</summary>
    public long Seed { get; }

    /// <summary>The ladder it shows.</summary>
    public JudgingLadder Ladder { get; }

    /// <summary>What is behind each letter, in the order of the letters.</summary>
    public ImmutableArray<CodedLevel> Codes { get; }

    /// <summary>The crop behind a letter, in either case; null when the strip has none.</summary>
    public CodedLevel? Find(string letter) => Codes.FirstOrDefault(c => c.Letter.Equals(letter, StringComparison.OrdinalIgnoreCase));

    /// <summary>Draws the letters.</summary>
    /// <param name="seed">Number of the strip.</param>
    /// <param name="ladder">Every ISO of it is shown once as it is, and the cleanest mix as a blank check.</param>
    /// <param name="repeats">How many ISOs are shown a second time, at most all of them: every second one from the noisiest down, so that a limit near either end has more than one answer beyond it; what is left over goes to the noisiest of the others.</param>
    /// <exception cref="ArgumentException">More crops than there are letters, or more repeats than ISOs; the message is for the person.</exception>
    public static BlindCodes For(long seed, JudgingLadder ladder, int repeats = 4)
    {
        ShownLevel[] levels = [.. ladder.Isos.Select(i => ShownLevel.OneFrame(i.Iso))];
        if (repeats < 0 || repeats > levels.Length)
            throw new ArgumentOutOfRangeException(nameof(repeats), repeats, $"Of {levels.Length} ISOs none to all can be shown twice.");
        if (levels.Length + repeats + 1 > Letters.Length)
            throw new ArgumentException($"{levels.Length} ISOs with {repeats} repeats and a blank check need more than the {Letters.Length} letters there are: choose fewer ISOs.", nameof(ladder));
        ShownLevel[] fromNoisiest = [.. levels.Reverse()], twice = [.. fromNoisiest.Where((_, i) => i % 2 == 0).Concat(fromNoisiest.Where((_, i) => i % 2 == 1)).Take(repeats)];
        (ShownLevel Shown, bool IsBlank, bool IsSecond)[] all = [.. levels.Select(l => (l, false, false)), .. twice.Select(l => (l, false, true)), (ladder.Cleanest, true, true)], drawn = all;
        // Two pictures of one level beside each other are seen to be alike: drawn again, always in the same way.
        for (int draw = 0; draw < MostDraws; draw++)
        {
            drawn = SeededDraw.Shuffled(all, seed, draw == 0 ? "letters" : string.Create(CultureInfo.InvariantCulture, $"letters {draw}"));
            if (drawn.Zip(drawn.Skip(1)).All(pair => pair.First.Shown.Iso != pair.Second.Shown.Iso))
                break;
        }
        return new BlindCodes(seed, ladder, [.. drawn.Select((d, i) => new CodedLevel(Letters[i].ToString(), d.Shown, d.IsBlank, d.IsSecond))]);
    }
}
