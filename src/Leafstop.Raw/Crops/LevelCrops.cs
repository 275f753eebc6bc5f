using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Crops;

/// <summary>Makes the pictures of one level from its open frames; runs in the decoding process.</summary>
internal static class LevelCrops
{
    /// <summary>Brightness is matched when settings explain all but this much of the difference, stops.</summary>
    public const double MostUnexplained = 0.5;

    /// <summary>Beyond this share of clipped samples the mean says nothing.</summary>
    private const double MostClipped = 0.02;

    /// <summary>Linear light that the mean of a place is shown as: mid-grey, and a dark that can still be seen on a screen.</summary>
    private const double MidTarget = 0.18, DarkTarget = 0.045;

    /// <summary>Makes the pictures.</summary>
    /// <param name="first">The frame that is shown.</param>
    /// <param name="second">Its partner; null when it has none, and then there is no picture of the difference.</param>
    /// <param name="request">What is asked for.</param>
    /// <returns>The pictures; null when the frame is too small to be shown in crops.</returns>
    public static CropAnswer? Of(MosaicFrame first, MosaicFrame? second, CropRequest request)
    {
        if (CropGrid.Of(first.Header.Mosaic, first.Width, first.Height) is not { } grid) return null;
        if (second is not null && (second.Width, second.Height, second.Header.Mosaic.Letters) != (first.Width, first.Height, first.Header.Mosaic.Letters)) second = null;
        FrameLevels levels = FrameLevels.Of(first, request.BlackDn);
        CropPlace[] places = request.Places ?? Places(first, second ?? first, grid, levels, request.MidStops);
        LinearCrop[] crops = [.. places.Select(p => LinearCrop.Of(first, grid, Inside(p.Left, first.Width, grid), Inside(p.Top, first.Height, grid), levels))];
        double[] balance = request.Balance ?? Balance(first, crops, places);

        List<CropPicture> pictures = [.. places.Zip(crops, (p, c) => Shown(c, p, balance, request.ExplainedStops))];
        if (second is not null && places.FirstOrDefault(p => p.Subject == CropSubject.MidTone) is { } mid
            && PairDifference.Of(first, second, grid, Inside(mid.Left, first.Width, grid), Inside(mid.Top, first.Height, grid)) is { } difference)
            pictures.Add(new CropPicture(CropSubject.Difference, difference));
        return new CropAnswer { Places = places, Balance = balance, Pictures = [.. pictures] };
    }

    /// <summary>The share of clipped samples, mean and settings decide whether a crop is brought to the brightness of the others.</summary>
    internal static CropPicture Shown(LinearCrop crop, CropPlace place, double[] balance, double explainedStops)
    {
        double? needed = crop.SignalDn > 0 ? Math.Log2(place.SignalDn / crop.SignalDn) : null, unexplained = needed - explainedStops;
        bool matched = unexplained is { } stops && Math.Abs(stops) <= MostUnexplained && crop.ClippedShare <= MostClipped;
        double correction = matched ? needed!.Value : explainedStops;
        double scale = Target(place.Subject) / place.SignalDn * Math.Pow(2, correction);
        return new CropPicture(place.Subject, crop.Develop(scale, balance))
        {
            LiftStops = place.LiftStops,
            CorrectionStops = correction,
            UnexplainedStops = unexplained,
            IsMatched = matched,
            ClippedShare = crop.ClippedShare,
        };
    }

    private static CropPlace[] Places(MosaicFrame first, MosaicFrame second, CropGrid grid, FrameLevels levels, double midStops) =>
    [
        .. PlaceSearch.In(first, second, grid, levels, midStops)
            .Select(found => (found, crop: LinearCrop.Of(first, grid, found.Left, found.Top, levels)))
            .Where(f => f.crop.SignalDn > 0)
            .Select(f => new CropPlace(f.found.Subject, f.found.Left, f.found.Top, f.crop.SignalDn, Lift(f.found.Subject, f.crop.SignalDn, first, levels))),
    ];

    private static double Lift(CropSubject subject, double signalDn, MosaicFrame frame, FrameLevels levels)
    {
        IReadOnlyList<string> names = frame.Header.Mosaic.PlaneNames();
        int plane = Enumerable.Range(0, names.Count).FirstOrDefault(p => names[p].StartsWith('G'), 0);
        double midDn = MeteredTone.MidGreyShare * (levels.ClipDn[plane] - levels.BlackDn[plane]);
        return Math.Log2(Target(subject) / (MidTarget * signalDn / midDn));
    }

    private static double Target(CropSubject subject) => subject == CropSubject.Dark ? DarkTarget : MidTarget;

    /// <summary>By the neutral that the file states; otherwise the mid tone is taken for grey.</summary>
    private static double[] Balance(MosaicFrame frame, LinearCrop[] crops, CropPlace[] places)
    {
        if (frame.AsShotNeutral is [> 0 and var r, > 0 and var g, > 0 and var b]) return [g / r, 1, g / b];
        int mid = Array.FindIndex(places, p => p.Subject == CropSubject.MidTone);
        return mid >= 0 && crops[mid].Means is [> 0 and var red, > 0 and var green, > 0 and var blue] ? [green / red, 1, green / blue] : [1, 1, 1];
    }

    // Frames of one body are of one size; a stray one is shown as far as it reaches.
    private static int Inside(int at, int size, CropGrid grid) => Math.Clamp(at, 0, (size - grid.SensorSide) / grid.BlockSide * grid.BlockSide);
}
