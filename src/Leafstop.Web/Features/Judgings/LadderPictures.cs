using System.Collections.Concurrent;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
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

    private byte[] Made(TrialPicture picture, CropRegion region) => crops.Png(JudgedLevels.SubjectOf(region), picture.Level, picture.IsSecondFrameFirst, scale)
        ?? throw new InvalidOperationException("A trial asks for a level that the ladder has not.");
}
