using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage.Judgements;

/// <summary>The judgings of the kept cameras, in SQLite, with their history. The newest finished one with a limit speaks for its tags; older ones stay, and what it does not know of they still say.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>. A camera that is forgotten takes its judgings with it.</remarks>
public sealed class JudgementStore(DataFile file)
{
    /// <summary>Keeps a judging, finished or not. What was kept before of the same one (same begin, source and seed) is replaced, so that a session can be saved after each answer.</summary>
    /// <returns>False when no camera of that name is kept.</returns>
    public bool Keep(string camera, KeptJudging judging)
    {
        string tidy = CameraStore.TidyName(camera);
        return file.Exists && file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (CameraStore.FindId(connection, tidy) is not { } id)
                return false;
            JudgementRows.Write(connection, id, judging);
            transaction.Commit();
            return true;
        });
    }

    /// <summary>Keeps a judging beside all that are kept: one of the same strip in the same second counts as a second later.</summary>
    /// <param name="camera">Its camera.</param>
    /// <param name="judging">A judging that is over.</param>
    /// <returns>False when no camera of that name is kept.</returns>
    public bool KeepBeside(string camera, KeptJudging judging)
    {
        ArgumentNullException.ThrowIfNull(judging);
        string tidy = CameraStore.TidyName(camera);
        return file.Exists && file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (CameraStore.FindId(connection, tidy) is not { } id)
                return false;
            ImmutableArray<KeptJudging> all = JudgementRows.Read(connection, id);
            while (all.Any(judging.IsSameAs))
                judging = judging with { BegunAt = judging.BegunAt.AddSeconds(1), JudgedAt = judging.JudgedAt.AddSeconds(1) };
            JudgementRows.Write(connection, id, judging);
            transaction.Commit();
            return true;
        });
    }

    /// <summary>Keeps a judging that goes on, unless somebody else went on with it since.</summary>
    /// <param name="camera">Its camera.</param>
    /// <param name="judging">The judging as it now stands.</param>
    /// <param name="before">Its answers as they were last kept from here; none at the begin.</param>
    /// <returns>False when no camera of that name is kept.</returns>
    /// <exception cref="JudgedElsewhereException">What is kept of it are other answers than these. Nothing was changed.</exception>
    public bool Advance(string camera, KeptJudging judging, IReadOnlyCollection<JudgingAnswer> before)
    {
        ArgumentNullException.ThrowIfNull(before);
        string tidy = CameraStore.TidyName(camera);
        return file.Exists && file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (CameraStore.FindId(connection, tidy) is not { } id)
                return false;
            if (JudgementRows.AnswersOf(connection, id, judging) is { Length: > 0 } kept && !kept.SequenceEqual(before, new SameAnswer()))
                throw new JudgedElsewhereException();
            JudgementRows.Write(connection, id, judging);
            transaction.Commit();
            return true;
        });
    }

    /// <summary>Drops a judging: it stays in the history and speaks no more; or takes it back in.</summary>
    /// <param name="camera">Its camera.</param>
    /// <param name="key">Its <see cref="KeptJudging.Key"/>.</param>
    /// <param name="at">When it is dropped; null to take it back in.</param>
    /// <returns>The judging as it now is; null when no such one is kept.</returns>
    public KeptJudging? Drop(string camera, string key, DateTimeOffset? at)
    {
        string tidy = CameraStore.TidyName(camera);
        return !file.Exists ? null : file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (CameraStore.FindId(connection, tidy) is not { } id || JudgementRows.Read(connection, id).FirstOrDefault(j => j.Key == key) is not { } judging)
                return null;
            JudgementRows.Drop(connection, id, judging, at);
            transaction.Commit();
            return judging with { DroppedAt = at is { } time ? DateTimeOffset.FromUnixTimeSeconds(time.ToUnixTimeSeconds()) : null };
        });
    }

    /// <summary>Every judging of a camera, oldest first; empty when none is kept.</summary>
    public ImmutableArray<KeptJudging> List(string camera)
    {
        string tidy = CameraStore.TidyName(camera);
        return file.Exists
            ? file.Use<ImmutableArray<KeptJudging>>(connection =>
            {
                using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
                return CameraStore.FindId(connection, tidy) is { } id ? JudgementRows.Read(connection, id) : [];
            })
            : [];
    }

    /// <summary>The judging whose scene has this name, and the camera it belongs to; null when there is none.</summary>
    public (string Camera, KeptJudging Judging)? Find(string name) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            return JudgementRows.Find(connection, name);
        })
        : null;

    /// <summary>The judging that speaks for these tags: the newest with a limit that was not dropped; null when there is none.</summary>
    public KeptJudging? Newest(string camera, LimitTags tags) => Speaking(List(camera)).FirstOrDefault(j => j.Result.Tags == tags);

    /// <summary>The judgings that speak, one for each set of tags, newest first.</summary>
    public ImmutableArray<KeptJudging> Speaking(string camera) => [.. Speaking(List(camera))];

    /// <summary>The newest session on the screen that was left unfinished; null when there is none.</summary>
    public KeptJudging? Unfinished(string camera) => List(camera).LastOrDefault(j => j.IsUnfinished && j.Source == JudgingSource.Screen);

    private static IEnumerable<KeptJudging> Speaking(ImmutableArray<KeptJudging> judgings) =>
        judgings.Reverse().Where(j => j.DroppedAt is null && !j.IsUnfinished && j.Result.HasLimits).GroupBy(j => j.Result.Tags).Select(g => Joined([.. g]));

    /// <summary>The newest judging, and where it says nothing of one limit the newest older one that does, unless the two contradict each other.</summary>
    private static KeptJudging Joined(KeptJudging[] newestFirst)
    {
        KeptJudging newest = newestFirst[0];
        foreach (KeptJudging older in newestFirst.Skip(1))
        {
            if (LeavesOpen(newest.Result.Clean, older.Result.Clean, newest))
                return With(older, newest.Result with { Clean = older.Result.Clean }, JudgingQuestion.Disturbs);
            if (LeavesOpen(newest.Result.Stretch, older.Result.Stretch, newest))
                return With(older, newest.Result with { Stretch = older.Result.Stretch }, JudgingQuestion.WouldSign);
        }
        return newest;

        KeptJudging With(KeptJudging older, JudgingResult both, JudgingQuestion question) =>
            both.IsContradictory ? newest : newest with { Result = both, Borrowed = new BorrowedLimit(question, older.JudgedAt) };
    }

    /// <summary>True when the newer reading has no limit and does not speak against the older one.</summary>
    private static bool LeavesOpen(QuestionReading newer, QuestionReading older, KeptJudging newest) => !newer.HasLimit && older.HasLimit && newer.Outcome switch
    {
        LimitOutcome.AboveLadder => older.High! >= newest.Ladder[^1].Iso,
        LimitOutcome.BelowLadder => older.Low! <= newest.Ladder[0].Iso,
        _ => true,
    };

    /// <summary>Two answers that say the same of the same picture.</summary>
    private sealed class SameAnswer : IEqualityComparer<JudgingAnswer>
    {
        public bool Equals(JudgingAnswer? one, JudgingAnswer? other) => one is not null && other is not null
            && (one.Number, one.Question, one.Reply, one.Shown.Iso) == (other.Number, other.Question, other.Reply, other.Shown.Iso) && Math.Abs(one.Shown.Weight - other.Shown.Weight) < 1e-9;

        public int GetHashCode(JudgingAnswer answer) => answer.Number;
    }
}
