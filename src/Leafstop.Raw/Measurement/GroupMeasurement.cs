using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Measures frames that share their settings, holding at most three of them in memory, or four when it opens ahead.</summary>
public static class GroupMeasurement
{
    /// <summary>Opens the files one after another, pairs them and keeps only statistics.</summary>
    /// <param name="files">Paths in the order of exposure.</param>
    /// <param name="open">Opens one file; throws <see cref="IOException"/> with a plain sentence when it cannot.</param>
    /// <param name="ahead">True to open and look through the next file on a second thread meanwhile.</param>
    /// <remarks>Cap frames pair with cap frames, frames with light with frames with light, each with the one before it that is still alone. Damaged frames pair with none.</remarks>
    public static GroupSurvey Survey(IReadOnlyList<string> files, Func<string, MosaicFrame> open, bool ahead = false)
    {
        using var group = new Group();
        Task<FrameInHand>? waiting = null;
        try
        {
            for (int i = 0; i < files.Count; i++)
            {
                Task<FrameInHand>? now = waiting;
                string? following = ahead && i + 1 < files.Count ? files[i + 1] : null;
                waiting = following is null ? null : Task.Run(() => new FrameInHand(open(following)));
                group.Take(files[i], () => now is null ? new FrameInHand(open(files[i])) : now.GetAwaiter().GetResult());
            }

            return group.Finish();
        }
        finally
        {
            LetGo(waiting);
        }
    }

    /// <summary>A frame that was opened ahead and is not wanted any more, because something went wrong with the one before.</summary>
    private static void LetGo(Task<FrameInHand>? waiting) =>
        waiting?.ContinueWith(t => t.Result.Dispose(), CancellationToken.None, TaskContinuationOptions.OnlyOnRanToCompletion, TaskScheduler.Default);

    private sealed class Group : IDisposable
    {
        private readonly List<FrameSurvey> _frames = [];
        private readonly List<PairSurvey> _pairs = [];
        private readonly List<UnreadFile> _unread = [];
        private readonly HashSet<ulong> _digests = [];
        private FrameInHand? _litAlone, _capAlone;

        public void Take(string file, Func<FrameInHand> open)
        {
            FrameInHand frame;
            try
            {
                frame = open();
            }
            catch (IOException unreadable)
            {
                _unread.Add(new UnreadFile(file, unreadable.Message));
                return;
            }

            if (!_digests.Add(frame.Digest))
            {
                // The same picture twice: its survey goes along so that it can be named, but it is no second sample of the noise.
                Release(frame, default, frame.Sums, 0);
                return;
            }

            if (frame.Frame.DataErrors > 0)
            {
                // Its picture is not what the camera saw: it has no partner, and its twin stays free for another.
                Release(frame, default, frame.Sums, 0);
                return;
            }

            ref FrameInHand? alone = ref frame.IsCap ? ref _capAlone : ref _litAlone;
            if (alone is null)
            {
                alone = frame;
                return;
            }

            var (pair, hot, sums) = PairMeasurement.Survey(alone, frame);
            _pairs.Add(pair);
            if (sums is null)
            {
                ReleaseSingle(alone);
                alone = frame;
                return;
            }

            Release(alone, hot, sums, 1);
            alone = null;
            Release(frame, hot, sums, -1);
        }

        public GroupSurvey Finish()
        {
            if (_litAlone is { } lit) ReleaseSingle(lit);
            if (_capAlone is { } cap) ReleaseSingle(cap);
            _litAlone = _capAlone = null;
            return new GroupSurvey { Frames = [.. _frames], Pairs = [.. _pairs], Unread = [.. _unread] };
        }

        public void Dispose()
        {
            _litAlone?.Dispose();
            _capAlone?.Dispose();
        }

        private void Release(FrameInHand frame, HotPixels hot, TileSums sums, int side, ImmutableArray<PairPlane>? curves = null)
        {
            _frames.Add(frame.Survey(hot, curves, sums, side));
            frame.Dispose();
        }

        private void ReleaseSingle(FrameInHand frame)
        {
            bool hasPair = _pairs.Any(p => p.IsCap == frame.IsCap && !p.IsFalsePair);
            Release(frame, default, frame.Sums, 0, hasPair ? null : SingleNoise.Curves(frame.Frame, frame.Sums, frame.BlackDn, frame.ClipDn.Min(), frame.FloorDn.Max()));
        }
    }
}
