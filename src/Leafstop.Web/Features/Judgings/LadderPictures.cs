using System.Collections.Concurrent;
using System.Collections.Immutable;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The pictures of a ladder as PNG files at the scale of the print on this screen, made once and kept as long as a trial may ask for them.</summary>
internal sealed class LadderPictures(DevelopedCrops crops, PrintScale scale)
{
    private readonly ConcurrentDictionary<(TrialPicture, CropRegion), Lazy<byte[]>> _made = new();

    /// <summary>The PNG file; made now when it was not made ahead. Asked for by several threads at once it is made once.</summary>
    public byte[] Of(TrialPicture picture, CropRegion region) => _made.GetOrAdd((picture, region), key => new Lazy<byte[]>(() => Made(key.Item1, key.Item2))).Value;

    /// <summary>The same pictures with nothing made yet, for somebody who keeps others than these.</summary>
    public LadderPictures Anew() => new(crops, scale);

    /// <summary>Lets go of all pictures but these.</summary>
    public void KeepOnly(IReadOnlyCollection<TrialPicture> wanted)
    {
        foreach (var key in _made.Keys.Where(k => !wanted.Contains(k.Item1)))
            _made.TryRemove(key, out _);
    }

    /// <summary>The ladder that can be judged with these crops: usable levels, as bright as one another in every place that the tone is judged by.</summary>
    /// <exception cref="ArgumentException">There are too few; the message is for the person.</exception>
    public static JudgingLadder Ladder(DevelopedCrops crops, ToneKind tone)
    {
        CropSubject[] subjects = [.. CropRegions.For(tone).Select(JudgingOrder.Subject)];
        return JudgingLadder.Of(crops.Crops.Where(c => subjects.Contains(c.Subject)).GroupBy(c => c.Level.Iso)
            .Where(g => g.Count() == subjects.Length && g.All(c => c.IsMatched && c.Level.Usable))
            .Select(g => new LadderIso(g.Key, g.All(c => c.HasPair))));
    }

    private byte[] Made(TrialPicture picture, CropRegion region) => crops.Png(JudgingOrder.Subject(region), picture.Level, picture.IsSecondFrameFirst, scale)
        ?? throw new InvalidOperationException("A trial asks for a level that the ladder has not.");
}
