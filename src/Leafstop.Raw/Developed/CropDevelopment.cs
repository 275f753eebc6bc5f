using System.Collections.Immutable;
using Leafstop.Core.Colour;
using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Settles how the subjects of a ladder are developed, by its reference level, and prepares the crops of each level.</summary>
internal sealed class CropDevelopment
{
    /// <summary>Linear light of metered mid-grey, and of a lifted dark that can still be seen.</summary>
    private const double MidTarget = 0.18, DarkTarget = 0.045;

    /// <summary>The most that a dark is lifted unasked, stops: the deepest tone of the job, six stops below mid-grey, is then seen. No print shows more, and deeper there is hardly more than read noise.</summary>
    private const double MostLift = 4;

    /// <summary>A crop whose brightness is known no better than this, one standard error, gets the factors of the mid tone of its frame, because light that changed did so everywhere;
    /// what is left to the reference is an error of black or of chance and is taken off. A factor would make its grain stronger or weaker than it is. Stops.</summary>
    private const double MostErrorStops = 0.05;

    private readonly Level _reference;
    private readonly IReadOnlyList<double> _clipDn;
    private readonly MosaicPattern _mosaic;
    private readonly (int Width, int Height) _size;
    private readonly Dictionary<CropSubject, (double[] Means, CropRecipe Recipe)> _subjects = [];
    private readonly List<string> _notes = [];
    private readonly List<(Level Level, int Right, int Down)> _moved = [];

    public CropDevelopment(Level reference, double midStops, CutAnswer chosen, CropWish wish, CameraIdentity camera)
    {
        FrameCut first = chosen.Frames[0];
        (_reference, _mosaic, _size) = (reference, first.Mosaic, (first.Width, first.Height));
        _clipDn = ClipOf(reference, first.Mosaic, Math.Pow(2, camera.Bits) - 1);
        var interpolation = MosaicInterpolation.SharedDetail(first.Mosaic);
        Dictionary<CropSubject, double[]> means = chosen.Places.Select(p => p.Subject).Where(s => chosen.Frames.Any(f => f.Areas.Any(a => a.Subject == s)))
            .ToDictionary(s => s, s => MeanOf(chosen.Frames, s));
        foreach (CropSubject missing in ((CropSubject[])[CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture]).Except(means.Keys))
            _notes.Add($"No {Name(missing)} was found in the scene. Give its place, or add one to the scene.");

        WhiteBalance balance = Balance(first, means.GetValueOrDefault(CropSubject.MidTone), wish);
        CameraColour colour = Colour(first);
        int green = interpolation.Channels / 2, plane = Math.Max(0, first.Mosaic.PlaneNames().ToList().FindIndex(n => n.StartsWith('G')));
        double midDn = MeteredTone.MidGreyShare * (_clipDn[plane] - first.BlackDn[plane]) * Math.Pow(2, midStops);
        double plain = MidTarget / midDn;
        foreach (var (subject, mean) in means)
        {
            // In thirds, as it is told and as limits carry it: two ladders of one scene give one lift.
            double lift = subject != CropSubject.Dark ? 0 : wish.DarkLiftStops ?? (mean[green] > 0 ? Math.Clamp(Stops.Of(Math.Log2(DarkTarget / (plain * mean[green]))).NearestThird().Value, 0, MostLift) : 0);
            _subjects[subject] = (mean, new CropRecipe(interpolation, balance, colour, plain * Math.Pow(2, lift), lift));
        }
    }

    /// <summary>What is missing or was assumed so far, in sentences.</summary>
    public ImmutableArray<string> Notes =>
    [
        .. _notes,
        .. _moved.GroupBy(m => (m.Right, m.Down)).Select(m => $"The camera had moved before {string.Join(", ", m.Select(l => $"ISO\u00a0{l.Level.Iso.ToDisplay()}"))}: these crops are cut {Pixels(m.Key.Right, "right", "left")} and {Pixels(m.Key.Down, "down", "up")}, so that they show the same piece of the scene."),
    ];

    /// <summary>The places of the reference level where they lie in the frames of another: moved along with the picture, by whole pixels, because the interpolation begins at any place of the mosaic's cell.</summary>
    public static CropPosition[] Along(CropPosition[] places, Level reference, Level level)
    {
        var (right, down) = Shift(reference, level);
        return [.. places.Select(p => p with { Left = p.Left + right, Top = p.Top + down })];
    }

    private static (int Right, int Down) Shift(Level reference, Level level) =>
        ((int)Math.Round(level.ShiftXPx - reference.ShiftXPx), (int)Math.Round(level.ShiftYPx - reference.ShiftYPx));

    private static string Pixels(int pixels, string onward, string back) => $"{Math.Abs(pixels)} px {(pixels < 0 ? back : onward)}";

    /// <summary>The crops of one level.</summary>
    public IEnumerable<DevelopedCrop> Of(Level level, IReadOnlyList<FrameCut> cut)
    {
        FrameCut[] frames = [.. cut.Where(f => (f.Width, f.Height) == _size && f.Mosaic.Letters == _mosaic.Letters)];
        if (frames.Length == 0)
        {
            _notes.Add($"No frame of ISO\u00a0{level.Iso.ToDisplay()} can be shown: its files can not be read any more, or are of another size than the others.");
            yield break;
        }

        if (level.Flags.Contains(LevelFlag.Moved)) _notes.Add($"The camera or the scene moved between the two frames of ISO\u00a0{level.Iso.ToDisplay()}: the second shows a place a little beside that of the first.");
        if (Shift(_reference, level) is var (right, down) && (right, down) != (0, 0))
            _moved.Add((level, right, down));
        foreach (CropSubject gone in _subjects.Keys.Where(s => !frames[0].Areas.Any(a => a.Subject == s)))
            _notes.Add($"At ISO\u00a0{level.Iso.ToDisplay()} the place of the {Name(gone)} lies outside the frame.");
        double explained = BenchPictures.Explained(_reference, level);
        IReadOnlyList<double> clip = level.Planes.Length == _clipDn.Count ? ClipOf(level, _mosaic, 0) : _clipDn;
        Dictionary<string, BrightnessMatch> byMidTone = new(StringComparer.Ordinal);
        foreach (var (subject, (mean, recipe)) in _subjects.OrderByDescending(s => s.Key == CropSubject.MidTone).ThenBy(s => s.Key))
        {
            CutSamples[] samples = [.. frames.SelectMany(f => f.Areas.Where(a => a.Subject == subject).Select(a => new CutSamples(f, a)))];
            if (samples.Length == 0) continue;
            var measured = samples.Select(s => s.Measure(clip)).ToArray();
            var matches = new BrightnessMatch[samples.Length];
            for (int i = 0; i < samples.Length; i++)
            {
                if (measured[i].ErrorStops > MostErrorStops && byMidTone.TryGetValue(samples[i].File, out BrightnessMatch? known) && Left(mean, measured[i].Means, known, measured[i].ErrorStops) is { } left)
                    (matches[i], samples[i]) = (known, samples[i].Without(left));
                else
                    matches[i] = BrightnessMatch.Of(level.Iso.Speed, mean, measured[i].Means, explained, measured[i].ClippedShare);
            }

            if (subject == CropSubject.MidTone)
                foreach (var (sample, match) in samples.Zip(matches)) byMidTone[sample.File] = match;
            yield return new DevelopedCrop(level, subject, samples, [.. matches], measured.Average(m => m.ClippedShare), recipe);
        }
    }

    /// <summary>What is too much in each channel once a crop has the factors of the mid tone, DN; null where that is more than chance and half a stop.</summary>
    private static double[]? Left(double[] reference, double[] own, BrightnessMatch midTone, double errorStops)
    {
        double most = BrightnessMatch.MostUnexplainedStops + 4 * errorStops;
        double[] wanted = [.. reference.Zip(midTone.Factors, (r, f) => r / f)];
        return midTone.IsMatched && own.Zip(wanted).All(m => m.First > 0 && Math.Abs(Math.Log2(m.Second / m.First)) <= most) ? [.. own.Zip(wanted, (o, w) => o - w)] : null;
    }

    private double[] MeanOf(FrameCut[] frames, CropSubject subject)
    {
        double[][] means = [.. frames.SelectMany(f => f.Areas.Where(a => a.Subject == subject).Select(a => new CutSamples(f, a).Measure(_clipDn).Means))];
        return [.. means[0].Select((_, channel) => means.Average(m => m[channel]))];
    }

    private WhiteBalance Balance(FrameCut frame, double[]? midTone, CropWish wish)
    {
        if (MosaicInterpolation.ChannelsOf(frame.Mosaic).Max() == 0) return WhiteBalance.None;
        if (!wish.GreyFromMidTone && frame.Neutral is [> 0 and var red, > 0 and var green, > 0 and var blue]) return WhiteBalance.FromNeutral(red, green, blue);
        if (midTone is [> 0 and var r, > 0 and var g, > 0 and var b])
        {
            if (!wish.GreyFromMidTone) _notes.Add("The files state no white balance: the mid tone is taken for grey.");
            return WhiteBalance.FromNeutral(r, g, b);
        }

        _notes.Add("The files state no white balance and the scene has no mid tone to take it from: colours are shown as the sensor recorded them.");
        return WhiteBalance.None;
    }

    private CameraColour Colour(FrameCut frame)
    {
        if (MosaicInterpolation.ChannelsOf(frame.Mosaic).Max() == 0) return CameraColour.AsRecorded;
        if (frame.XyzToCamera is { Length: 9 } m)
        {
            try
            {
                return CameraColour.FromMatrix(new ColourMatrix(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]), Chromaticity.Of(frame.ColourLight[0], frame.ColourLight[1]));
            }
            catch (ArgumentException)
            {
                // Told below, as if there were none.
            }
        }

        _notes.Add("Neither the files nor the raw library say how this camera sees colours: they are shown as the sensor recorded them.");
        return CameraColour.AsRecorded;
    }

    private static IReadOnlyList<double> ClipOf(Level level, MosaicPattern mosaic, double otherwise) =>
        [.. mosaic.PlaneNames().Select(name => level.Planes.FirstOrDefault(p => p.Plane == name)?.ClipDn ?? otherwise)];

    private static string Name(CropSubject subject) => subject switch
    {
        CropSubject.Dark => "deep smooth dark",
        CropSubject.MidTone => "smooth mid tone",
        _ => "fine texture",
    };
}
