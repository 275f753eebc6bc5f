using System.Collections.Immutable;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage.Judgements;

/// <summary>The judgings of the kept cameras, in SQLite, with their history. The newest one with a limit speaks for its tags; older ones stay.</summary>
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

    /// <summary>The judging that speaks for these tags: the newest with a limit; null when there is none.</summary>
    public KeptJudging? Newest(string camera, LimitTags tags) => Speaking(List(camera)).FirstOrDefault(j => j.Result.Tags == tags);

    /// <summary>The judgings that speak, one for each set of tags, newest first.</summary>
    public ImmutableArray<KeptJudging> Speaking(string camera) => [.. Speaking(List(camera))];

    /// <summary>The newest session on the screen that was left unfinished; null when there is none.</summary>
    public KeptJudging? Unfinished(string camera) => List(camera).LastOrDefault(j => j.IsUnfinished && j.Source == JudgingSource.Screen);

    private static IEnumerable<KeptJudging> Speaking(ImmutableArray<KeptJudging> judgings) =>
        judgings.Reverse().Where(j => j.Result.HasLimits).DistinctBy(j => j.Result.Tags);
}
