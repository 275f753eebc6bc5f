using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Judging.Curves;

namespace Leafstop.Core.Judging;

/// <summary>A blind judging: asks the two questions, each at the level that is expected to tell most about its limit, and knows when it has heard enough.</summary>
/// <remarks>Questions come in blocks of ten, two of each ten being blank checks at places drawn from the seed. What comes next depends on the setup and the answers alone, so a
/// session is resumed from its answers, and taking one back asks it again. Used by one thread at a time.</remarks>
public sealed class JudgingSession
{
    private readonly CurveSpace _space;
    private readonly List<JudgingAnswer> _answers = [];
    private readonly LimitBelief[] _beliefs = new LimitBelief[2];
    private (JudgingTrial Trial, TrialPicture Picture, bool IsBlank)? _next;

    private JudgingSession(JudgingSetup setup)
    {
        Setup = setup;
        _space = LimitBelief.Space(setup.Ladder);
    }

    /// <summary>What it is about.</summary>
    public JudgingSetup Setup { get; }

    /// <summary>Answers so far, in order.</summary>
    public ImmutableArray<JudgingAnswer> Answers => [.. _answers];

    /// <summary>True when both questions have ended.</summary>
    public bool IsOver => Next() is null;

    /// <summary>Begins a session.</summary>
    public static JudgingSession Begin(JudgingSetup setup) => Resume(setup, []);

    /// <summary>Goes on where a session was left.</summary>
    /// <param name="setup">The setup it was begun with.</param>
    /// <param name="answers">Its answers, numbered from 1 in order.</param>
    /// <exception cref="ArgumentException">An answer is out of order, or shows a level that the ladder has not; the message is for the person.</exception>
    public static JudgingSession Resume(JudgingSetup setup, IEnumerable<JudgingAnswer> answers)
    {
        JudgingSession session = new(setup);
        foreach (JudgingAnswer answer in answers)
        {
            if (answer.Number != session._answers.Count + 1)
                throw new ArgumentException($"Answer {answer.Number} stands where answer {session._answers.Count + 1} belongs: this judging cannot be gone on with.", nameof(answers));
            // The level of the ladder itself and not a copy that is off in the last digits: repeats are found by their level, and the same answers must ask the same next question.
            ShownLevel shown = setup.Ladder.Levels.FirstOrDefault(l => l.Iso == answer.Shown.Iso && Math.Abs(l.EquivalentStops - answer.Shown.EquivalentStops) < 1e-6)
                ?? throw new ArgumentException($"Answer {answer.Number} is about a level that the ladder has not: this judging belongs to another ladder.", nameof(answers));
            session._answers.Add(answer with { Shown = shown });
        }
        session.Reckon();
        return session;
    }

    /// <summary>The picture to judge next; the same one until it is answered. Null when both questions have ended.</summary>
    public JudgingTrial? Next() => (_next ??= Choose())?.Trial;

    /// <summary>How to make the picture of the next trial.</summary>
    /// <param name="token">Its token.</param>
    /// <exception cref="ArgumentException">The token is not that of the next trial.</exception>
    public TrialPicture Picture(string token) => Expected(token).Picture;

    /// <summary>Takes the answer to the next trial.</summary>
    /// <param name="token">Its token: an answer that comes twice, or late, is refused.</param>
    /// <param name="reply">The answer.</param>
    /// <exception cref="ArgumentException">The token is not that of the next trial.</exception>
    public void Answer(string token, JudgingReply reply)
    {
        (JudgingTrial trial, TrialPicture picture, bool isBlank) = Expected(token);
        _answers.Add(new JudgingAnswer(trial.Number, trial.Question, picture.Level, isBlank, reply));
        _beliefs[(int)trial.Question].Take(picture.Level.EquivalentStops, trial.Question.Against(reply));
        _next = null;
    }

    /// <summary>Takes the last answer back; its trial comes again. False when there is none.</summary>
    public bool Undo()
    {
        if (_answers.Count == 0)
            return false;
        _answers.RemoveAt(_answers.Count - 1);
        Reckon();
        return true;
    }

    /// <summary>What the answers so far say.</summary>
    public JudgingResult Result() => new(
        Setup.Tags,
        QuestionReading.Of(JudgingQuestion.Disturbs, Setup.Ladder, _beliefs[0], _answers),
        QuestionReading.Of(JudgingQuestion.WouldSign, Setup.Ladder, _beliefs[1], _answers));

    private void Reckon()
    {
        _next = null;
        _beliefs[0] = LimitBelief.After(_space, JudgingQuestion.Disturbs, _answers);
        _beliefs[1] = LimitBelief.After(_space, JudgingQuestion.WouldSign, _answers);
    }

    private (JudgingTrial Trial, TrialPicture Picture, bool IsBlank) Expected(string token) =>
        Next() is { } trial && trial.Token == token
            ? _next!.Value
            : throw new ArgumentException("This picture is not the one to be judged now: it was answered already, or belongs to another session.", nameof(token));

    private (JudgingTrial, TrialPicture, bool)? Choose()
    {
        if (QuestionNow() is not { } question)
            return null;
        int number = _answers.Count + 1;
        bool isBlank = IsBlank(question, CountOf(question));
        ShownLevel level = isBlank ? Setup.Ladder.Cleanest : MostTelling(question, number);
        JudgingTrial trial = new(
            Token(number),
            number,
            question,
            [.. SeededDraw.Shuffled(CropRegions.For(Setup.Tags.Tone), Setup.Seed, string.Create(CultureInfo.InvariantCulture, $"regions {number}"))],
            SeededDraw.Below(2, Setup.Seed, "mirrored", number) == 1);
        return (trial, new TrialPicture(level, SeededDraw.Below(2, Setup.Seed, "frame", number) == 1), isBlank);
    }

    private JudgingQuestion? QuestionNow()
    {
        JudgingQuestion last = _answers.Count > 0 ? _answers[^1].Question : JudgingQuestion.WouldSign;
        JudgingQuestion other = last == JudgingQuestion.Disturbs ? JudgingQuestion.WouldSign : JudgingQuestion.Disturbs;
        bool lastMayGoOn = !_beliefs[(int)last].IsEnough(Setup.Ladder), otherMayGoOn = !_beliefs[(int)other].IsEnough(Setup.Ladder);
        bool blockIsFull = CountOf(last) % JudgingRules.Block == 0;
        return lastMayGoOn && (!blockIsFull || !otherMayGoOn) ? last : otherMayGoOn ? other : null;
    }

    private int CountOf(JudgingQuestion question) => _answers.Count(a => a.Question == question);

    private bool IsBlank(JudgingQuestion question, int index)
    {
        int[] places = SeededDraw.Shuffled(
            Enumerable.Range(0, JudgingRules.Block), Setup.Seed, string.Create(CultureInfo.InvariantCulture, $"blanks {question} {index / JudgingRules.Block}"));
        return places.AsSpan(0, JudgingRules.BlanksInBlock).Contains(index % JudgingRules.Block);
    }

    private ShownLevel MostTelling(JudgingQuestion question, int number)
    {
        ImmutableArray<ShownLevel> levels = Setup.Ladder.Levels;
        double[] gains = _beliefs[(int)question].Curves.ExpectedInformation([.. levels.Select(l => l.EquivalentStops)]);
        double best = gains.Max();
        // Levels that tell as much as the best one to within a hundredth take turns, so that the order does not give the ISO away.
        int[] good = [.. Enumerable.Range(0, gains.Length).Where(i => gains[i] >= best * 0.99)];
        return levels[good[SeededDraw.Below(good.Length, Setup.Seed, "level", number)]];
    }

    private string Token(int number) => SeededDraw.Bits(Setup.Seed, "token", number).ToString("x16", CultureInfo.InvariantCulture);
}
