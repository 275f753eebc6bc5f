using System.Security.Cryptography;
using Leafstop.Core.Judging;

namespace Leafstop.Web.Features.Judgings;

/// <summary>A trial as its observer meets it: the host's own random token and picture addresses, which tell nothing and serve this one showing only.</summary>
internal sealed record ShownTrial(JudgingTrial Trial, string Token, IReadOnlyList<(CropRegion Region, string Address)> Pictures);

/// <summary>Where one observer judges: asks, takes answers and keeps them, and makes the next pictures ahead for either answer. Safe for several requests at once.</summary>
/// <param name="session">The session, new or gone on with.</param>
/// <param name="pictures">Its pictures.</param>
/// <param name="keep">Keeps the session as it now stands; when it fails, the answer counts as not given.</param>
internal sealed class JudgingTable(JudgingSession session, LadderPictures pictures, Action<JudgingSession> keep)
{
    /// <summary>The pictures that are judged now go out first: others made at the same time would hold them up, and nobody answers sooner.</summary>
    private static readonly TimeSpan Settling = TimeSpan.FromMilliseconds(250);

    private readonly Lock _one = new();
    private ShownTrial? _shown;
    private Task _ahead = Task.CompletedTask;

    /// <summary>What is judged, for its setup; its answers belong to this table.</summary>
    public JudgingSession Session => session;

    /// <summary>Its pictures.</summary>
    public LadderPictures Pictures => pictures;

    /// <summary>Answers so far, and the result once it is over.</summary>
    public (int Answers, JudgingResult? Result) Standing()
    {
        lock (_one)
            return (session.Answers.Length, session.IsOver ? session.Result() : null);
    }

    /// <summary>The trial to judge now, the same one until it is answered; null when it is over.</summary>
    public ShownTrial? Trial()
    {
        lock (_one)
        {
            if (_shown is null && session.Next() is { } next)
            {
                _shown = new ShownTrial(next, Random(), [.. next.Regions.Select(r => (r, Random()))]);
                MakeAhead(session.Picture(next.Token));
            }
            return _shown;
        }
    }

    /// <summary>The PNG file at an address of the trial that is shown now; null for any other address.</summary>
    public byte[]? Picture(string address)
    {
        TrialPicture picture;
        CropRegion region;
        lock (_one)
        {
            if (_shown?.Pictures.Where(p => p.Address == address).ToArray() is not [var found])
                return null;
            (picture, region) = (session.Picture(_shown.Trial.Token), found.Region);
        }
        return pictures.Of(picture, region);
    }

    /// <summary>Takes an answer. False when the token is not that of the trial that is shown now.</summary>
    public bool Answer(string token, JudgingReply reply)
    {
        lock (_one)
        {
            if (_shown is null || _shown.Token != token)
                return false;
            session.Answer(_shown.Trial.Token, reply);
            try
            {
                keep(session);
            }
            catch
            {
                // Not kept is not answered: the same token may be sent again.
                session.Undo();
                throw;
            }
            _shown = null;
            return true;
        }
    }

    /// <summary>Takes the last answer back; its trial comes again under a new token. False when there is none.</summary>
    public bool Undo()
    {
        lock (_one)
        {
            if (session.Answers is not [.., var last])
                return false;
            session.Undo();
            try
            {
                keep(session);
            }
            catch
            {
                session.Answer(session.Next()!.Token, last.Reply);
                throw;
            }
            _shown = null;
            return true;
        }
    }

    /// <summary>What is behind a token, for those who check this program. No address tells it.</summary>
    internal ShownLevel? LevelBehind(string token)
    {
        lock (_one)
            return _shown?.Token == token ? session.Picture(_shown.Trial.Token).Level : null;
    }

    /// <summary>Done when the pictures that may come next are made.</summary>
    internal Task Ahead()
    {
        lock (_one)
            return _ahead;
    }

    private static string Random() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    private void MakeAhead(TrialPicture now)
    {
        JudgingAnswer[] given = [.. session.Answers];
        JudgingTrial trial = session.Next()!;
        _ahead = MakeNext(_ahead);

        async Task MakeNext(Task before)
        {
            await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await Task.Delay(Settling).ConfigureAwait(false);
            if (HasMoved())
                return;
            // What follows "unsure" is made when it is asked for.
            (JudgingTrial Trial, TrialPicture Picture)[] next = [.. new[] { JudgingReply.No, JudgingReply.Yes }.Select(After).OfType<(JudgingTrial, TrialPicture)>()];
            pictures.KeepOnly([now, .. next.Select(n => n.Picture)]);
            foreach (var (coming, picture) in next)
            {
                foreach (CropRegion region in coming.Regions)
                {
                    if (HasMoved())
                        return;
                    pictures.Of(picture, region);
                }
            }
        }

        bool HasMoved()
        {
            lock (_one)
                return _shown?.Trial.Token != trial.Token;
        }

        (JudgingTrial, TrialPicture)? After(JudgingReply reply)
        {
            // What comes next depends on setup and answers alone, so a second session foretells it.
            JudgingSession foretold = JudgingSession.Resume(session.Setup, given);
            foretold.Answer(trial.Token, reply);
            return foretold.Next() is { } coming ? (coming, foretold.Picture(coming.Token)) : null;
        }
    }
}
