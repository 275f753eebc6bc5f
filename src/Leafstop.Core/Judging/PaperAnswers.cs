using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Leafstop.Core.Judging.Curves;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>What is said of a crop on paper.</summary>
public enum PaperWord
{
    /// <summary>"clean": the noise does not disturb.</summary>
    Clean,

    /// <summary>"bearable": it disturbs, and I would still put my name to it.</summary>
    Bearable,

    /// <summary>"no": I would not put my name to it.</summary>
    No,

    /// <summary>"unsure".</summary>
    Unsure,
}

/// <summary>The typed answers to a paper strip.</summary>
/// <param name="Key">Key of the strip.</param>
/// <param name="Words">What was said, by letter; letters that were passed over are not in it.</param>
public sealed partial record PaperAnswers(BlindCodes Key, ImmutableSortedDictionary<string, PaperWord> Words)
{
    /// <summary>Fewer answers than this say nothing.</summary>
    public const int FewestAnswers = 5;

    /// <summary>Letters of the strip without an answer.</summary>
    public IEnumerable<string> Missing => Key.Codes.Select(c => c.Letter).Where(l => !Words.ContainsKey(l));

    /// <summary>Reads "A clean, B clean, C no", "a: bearable; b=no", "A B C clean". Case, commas, colons, dashes and line ends do not matter.</summary>
    /// <exception cref="FormatException">Cannot be read; the message says why.</exception>
    public static PaperAnswers Read(string text, BlindCodes key) => TryRead(text, key, out PaperAnswers? answers, out string why) ? answers! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Read"/> does, telling why not instead of throwing.</summary>
    public static bool TryRead(string? text, BlindCodes key, out PaperAnswers? answers, out string why)
    {
        answers = null;
        var words = ImmutableSortedDictionary.CreateBuilder<string, PaperWord>(StringComparer.Ordinal);
        List<string> waiting = [];
        foreach (string token in Separators().Split(text ?? "").Where(t => t.Length > 0))
        {
            if (token.Length == 1)
            {
                if (key.Find(token) is not { } code)
                    return Fails($"This strip has no crop '{token}': its letters are {Say.List(key.Codes.Select(c => c.Letter))}. Check the letter, or the number of the strip.", out why);
                waiting.Add(code.Letter);
                continue;
            }
            if (!Enum.GetNames<PaperWord>().Contains(token, StringComparer.OrdinalIgnoreCase))
                return Fails($"'{token}' is no answer that is known here: write a letter and clean, bearable, no or unsure, as in 'A clean, B no'.", out why);
            if (waiting.Count == 0)
                return Fails($"'{token}' has no letter before it: write the letter first, as in 'A {token}'.", out why);
            PaperWord word = Enum.Parse<PaperWord>(token, ignoreCase: true);
            foreach (string letter in waiting)
            {
                if (words.TryGetValue(letter, out PaperWord said) && said != word)
                    return Fails($"Crop {letter} is called both {Written(said)} and {Written(word)}: leave one of them.", out why);
                words[letter] = word;
            }
            waiting.Clear();
        }
        if (waiting.Count > 0)
            return Fails($"{Say.List(waiting)} {(waiting.Count == 1 ? "has" : "have")} no answer: write clean, bearable, no or unsure after the letter.", out why);
        if (words.Count < FewestAnswers)
            return Fails($"{words.Count} answers are too few to say anything: judge at least {FewestAnswers} crops of the strip.", out why);
        answers = new PaperAnswers(key, words.ToImmutable());
        why = "";
        return true;
    }

    /// <summary>The limits that these answers give, by the same fit as on the screen; each crop answers both questions. Few answers give wide intervals or "cannot say".</summary>
    /// <param name="tags">What the strip was printed for.</param>
    public JudgingResult Judge(LimitTags tags)
    {
        CurveSpace space = LimitBelief.Space(Key.Ladder);
        return new JudgingResult(tags, Reading(JudgingQuestion.Disturbs, space), Reading(JudgingQuestion.WouldSign, space));
    }

    /// <summary>The answers as they are kept: for each letter one to each question.</summary>
    public ImmutableArray<JudgingAnswer> ToAnswers() =>
    [
        .. Enum.GetValues<JudgingQuestion>().SelectMany(q => Words.Select(w => (Question: q, Word: w.Value, Code: Key.Find(w.Key)!)))
            .Select((a, i) => new JudgingAnswer(i + 1, a.Question, a.Code.Shown, a.Code.IsBlank, Reply(a.Question, a.Word))),
    ];

    private QuestionReading Reading(JudgingQuestion question, CurveSpace space)
    {
        ImmutableArray<JudgingAnswer> answers = ToAnswers();
        return QuestionReading.Of(question, Key.Ladder, LimitBelief.After(space, question, answers), answers, isOver: true);
    }

    private static JudgingReply Reply(JudgingQuestion question, PaperWord word) => (question, word) switch
    {
        (_, PaperWord.Unsure) => JudgingReply.Unsure,
        (JudgingQuestion.Disturbs, PaperWord.Clean) => JudgingReply.No,
        (JudgingQuestion.WouldSign, PaperWord.No) => JudgingReply.No,
        _ => JudgingReply.Yes,
    };

    private static bool Fails(string sentence, out string why)
    {
        why = sentence;
        return false;
    }

    private static string Written(PaperWord word) => word switch
    {
        PaperWord.Clean => "clean",
        PaperWord.Bearable => "bearable",
        PaperWord.No => "no",
        _ => "unsure",
    };

    [GeneratedRegex(@"[\s,;:=.|/\-–—]+")]
    private static partial Regex Separators();
}
