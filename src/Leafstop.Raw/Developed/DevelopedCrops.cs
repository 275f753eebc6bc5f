using System.Collections.Immutable;
using System.IO.Hashing;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Developed;

/// <summary>Developed crops of a measured ladder: the same three places at every level, as bright as one another, without noise reduction or sharpening.</summary>
/// <remarks>Order of the steps: docs/method/developed-crops.md. Files are decoded in child processes and only ever read.</remarks>
public sealed class DevelopedCrops
{
    private DevelopedCrops(ImmutableArray<DevelopedCrop> crops, ImmutableArray<CropPosition> places, ImmutableArray<string> notes) => (Crops, Places, Notes) = (crops, places, notes);

    /// <summary>All crops, by subject and then by ISO; levels that are left off the curve are shown too.</summary>
    public ImmutableArray<DevelopedCrop> Crops { get; }

    /// <summary>What is missing or was assumed, in sentences.</summary>
    public ImmutableArray<string> Notes { get; }

    /// <summary>Where each subject lies at the level that the others are compared with; at a level at which the camera had moved it lies as far beside, see <see cref="DevelopedCrop.Place"/>.</summary>
    public ImmutableArray<CropPosition> Places { get; }

    /// <summary>How much each level that is shown was brightened or darkened, by ISO; those whose brightness could not be matched are not in it.</summary>
    public ImmutableArray<BrightnessCorrection> Corrections =>
    [
        .. Crops.GroupBy(c => c.Level).Where(l => l.All(c => c.IsMatched)).OrderBy(l => l.Key.Iso)
            .Select(l => new BrightnessCorrection(l.Key, l.SelectMany(c => c.Matches).Select(m => m.CorrectionStops).MaxBy(Math.Abs))),
    ];

    /// <summary>Stands for the samples that all crops were cut from (levels, places and raw values): the same mark means that the same is shown.</summary>
    /// <returns>32 hexadecimal digits, XXH128; no guard against forgery.</returns>
    public string SamplesMark()
    {
        XxHash128 hash = new();
        foreach (DevelopedCrop crop in Crops) crop.MarkIn(hash);
        return Convert.ToHexStringLower(hash.GetCurrentHash());
    }

    /// <summary>Cuts and prepares the crops of a ladder: the metered one where there is one.</summary>
    /// <param name="answer">The answer of the bench test.</param>
    /// <param name="wish">Size and places.</param>
    /// <param name="worker">How to start a decoding process; none starts when everything lies in the cache.</param>
    /// <param name="cache">Where samples are kept for the next time; null keeps nothing.</param>
    /// <param name="progress">Told after each file that had to be decoded.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>The crops; none, and a note that says why, when nothing can be shown.</returns>
    /// <exception cref="ArgumentException">The wish is out of range, or a moved place does not lie inside the frame.</exception>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    public static async Task<DevelopedCrops> MakeAsync(
        BenchAnswer answer, CropWish wish, WorkerCommand worker, CropCache? cache = null, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(wish);
        ArgumentNullException.ThrowIfNull(worker);
        wish.Validate();
        Level[] levels = BenchPictures.Shown(answer);
        if (levels.Length == 0 || answer.Camera is not { } camera) return Nothing("The folder holds no lit frame that could be read: there is nothing to show.");
        int side = wish.SideOn(camera);
        if (side < CropWish.LeastSide)
            return Nothing($"The frames have {camera.Width} × {camera.Height} pixels; developed crops need at least {CropWish.SideShare * CropWish.LeastSide} on the shorter side.");
        foreach (CropPosition place in wish.Moved) RefuseOutside(place, side, camera);

        Level reference = BenchPictures.Reference(levels);
        double middle = BenchPictures.MidStops(reference, levels);
        await using var source = new CutSource(worker, cache, levels.Sum(l => BenchPictures.FilesOf(l).Length), progress);
        CutAnswer? chosen = await source.ReferenceAsync(reference, side, [.. wish.Moved], middle, cancel).ConfigureAwait(false);
        if (chosen is null) return Nothing($"No file of ISO\u00a0{reference.Iso.ToDisplay()}, the level that the others are compared with, can be read any more.");
        Level[] others = [.. levels.Where(l => l != reference)];
        IReadOnlyList<FrameCut>[] cut = await source.OthersAsync(others, side, l => CropDevelopment.Along(chosen.Places, reference, l), cancel).ConfigureAwait(false);
        var development = new CropDevelopment(reference, middle, chosen, wish, camera);
        var crops = levels.SelectMany(l => development.Of(l, l == reference ? chosen.Frames : cut[Array.IndexOf(others, l)]));
        ImmutableArray<DevelopedCrop> made = [.. crops.OrderBy(c => c.Subject).ThenBy(c => Array.IndexOf(levels, c.Level))];
        foreach (DevelopedCrop crop in made)
            if (made.FirstOrDefault(c => c.Subject == crop.Subject && c.Level == reference) is { } shownBy) crop.ShowAsBrightAs(shownBy);
        return new DevelopedCrops(made, [.. chosen.Places.Where(p => made.Any(c => c.Subject == p.Subject))], development.Notes);
    }

    /// <summary>The crop of a subject at a level.</summary>
    /// <returns>Null when there is none.</returns>
    public DevelopedCrop? Find(CropSubject subject, Iso iso) => Crops.FirstOrDefault(c => c.Subject == subject && c.Level.Iso == iso);

    /// <summary>The picture of a level that is judged: one frame, or both mixed.</summary>
    /// <param name="subject">What is shown.</param>
    /// <param name="shown">The level.</param>
    /// <param name="isSecondFrameFirst">True when the second frame is shown, or weighs more.</param>
    /// <param name="scale">Pixel for pixel, or the scale of a print.</param>
    /// <returns>A PNG file; null when the ladder has no such crop.</returns>
    public byte[]? Png(CropSubject subject, ShownLevel shown, bool isSecondFrameFirst, PrintScale scale)
    {
        ArgumentNullException.ThrowIfNull(shown);
        DevelopedCrop? crop = Crops.FirstOrDefault(c => c.Subject == subject && Iso.FromMarking(c.Level.Iso.Speed) == shown.Iso);
        return crop?.Png(crop.HasPair ? PairMix.OfFirst(isSecondFrameFirst ? 1 - shown.Weight : shown.Weight) : PairMix.FirstAlone, scale);
    }

    /// <summary>A level that was not photographed: a mix of the pair of the next noisier level, its noise between those of its two neighbours in proportion to the distance in stops.</summary>
    /// <param name="subject">What is shown.</param>
    /// <param name="iso">An ISO between the lowest and the highest level; that of a level gives its first frame alone.</param>
    /// <param name="scale">Scale at which the noise of the neighbours is compared.</param>
    /// <returns>Null outside the ladder, where a neighbour is unusable, unmatched or has no pair, or where the neighbours lie further apart than a mix reaches (about one stop).</returns>
    public (DevelopedCrop Crop, PairMix Mix)? Between(CropSubject subject, Iso iso, PrintScale scale)
    {
        ArgumentNullException.ThrowIfNull(iso);
        if (Find(subject, iso) is { } exact) return (exact, PairMix.FirstAlone);
        DevelopedCrop? cleaner = Crops.Where(c => c.Subject == subject && c.Level.Iso < iso).MaxBy(c => c.Level.Iso), noisier = Crops.Where(c => c.Subject == subject && c.Level.Iso > iso).MinBy(c => c.Level.Iso);
        if (cleaner is not { IsMatched: true, Level.Usable: true } || noisier is not { IsMatched: true, Level.Usable: true }) return null;
        if (cleaner.NoiseVariance(scale) is not (> 0 and var below) || noisier.NoiseVariance(scale) is not (> 0 and var above)) return null;
        double position = Math.Log2(iso.Speed / cleaner.Level.Iso.Speed) / Math.Log2(noisier.Level.Iso.Speed / cleaner.Level.Iso.Speed);
        return PairMix.Between(below, above, position) is { } mix ? (noisier, mix) : null;
    }

    private static void RefuseOutside(CropPosition place, int side, CameraIdentity camera)
    {
        int right = camera.Width - side - CutRequest.Margin, bottom = camera.Height - side - CutRequest.Margin;
        if (place.Left < CutRequest.Margin || place.Left > right || place.Top < CutRequest.Margin || place.Top > bottom)
            throw new ArgumentException($"A crop of {side} pixels at {place.Left}, {place.Top} does not lie inside the frame: the left edge goes from {CutRequest.Margin} to {right}, the top edge from {CutRequest.Margin} to {bottom}.");
    }

    private static DevelopedCrops Nothing(string why) => new([], [], [why]);
}
