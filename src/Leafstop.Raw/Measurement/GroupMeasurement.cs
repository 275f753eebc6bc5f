using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Measures frames that share their settings, holding at most three of them in memory.</summary>
public static class GroupMeasurement
{
    /// <summary>Opens the files one after another, pairs them and keeps only statistics.</summary>
    /// <param name="files">Paths in the order of exposure.</param>
    /// <param name="open">Opens one file; throws <see cref="IOException"/> with a plain sentence when it cannot.</param>
    /// <remarks>Cap frames pair with cap frames, frames with light with frames with light, each with the one before it that is still alone.</remarks>
    public static GroupSurvey Survey(IReadOnlyList<string> files, Func<string, MosaicFrame> open)
    {
        var group = new Group();
        try
        {
            foreach (string file in files) group.Take(file, open);
            return group.Finish();
        }
        finally
        {
            group.Dispose();
        }
    }

    private sealed class Group : IDisposable
    {
        private readonly List<FrameSurvey> _frames = [];
        private readonly List<PairSurvey> _pairs = [];
        private readonly List<UnreadFile> _unread = [];
        private readonly HashSet<ulong> _digests = [];
        private FrameInHand? _litAlone, _capAlone;

        public void Take(string file, Func<string, MosaicFrame> open)
        {
            FrameInHand frame;
            try
            {
                frame = new FrameInHand(open(file));
            }
            catch (IOException unreadable)
            {
                _unread.Add(new UnreadFile(file, unreadable.Message));
                return;
            }

            if (!_digests.Add(frame.Digest))
            {
                // The same picture twice: its survey goes along so that it can be named, but it is no second sample of the noise.
                Release(frame, default);
                return;
            }

            ref FrameInHand? alone = ref frame.IsCap ? ref _capAlone : ref _litAlone;
            if (alone is null)
            {
                alone = frame;
                return;
            }

            var (pair, hot) = PairMeasurement.Survey(alone, frame);
            _pairs.Add(pair);
            if (pair.IsFalsePair)
            {
                ReleaseSingle(alone);
                alone = frame;
                return;
            }

            Release(alone, hot);
            alone = null;
            Release(frame, hot);
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

        private void Release(FrameInHand frame, HotPixels hot, ImmutableArray<PairPlane>? curves = null)
        {
            _frames.Add(frame.Survey(hot, curves));
            frame.Dispose();
        }

        private void ReleaseSingle(FrameInHand frame)
        {
            bool hasPair = _pairs.Any(p => p.IsCap == frame.IsCap && !p.IsFalsePair);
            Release(frame, default, hasPair ? null : SingleNoise.Curves(frame.Frame, frame.Sums, frame.BlackDn, frame.ClipDn.Min(), frame.FloorDn.Max()));
        }
    }
}
