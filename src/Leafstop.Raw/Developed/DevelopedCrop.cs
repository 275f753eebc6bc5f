using System.Collections.Immutable;
using System.Globalization;
using System.IO.Hashing;
using System.Text;
using Leafstop.Core.Colour;
using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>One place of the scene at one level, ready to be shown at any scale, from either frame of the pair or a mix of both.</summary>
/// <remarks>Pictures are worked out when they are asked for; the crop itself holds samples only. Safe for use by several threads at once.</remarks>
public sealed class DevelopedCrop
{
    private readonly CutSamples[] _frames;
    private readonly CropRecipe _recipe;
    private readonly Lazy<IReadOnlyList<double>> _means;
    private DevelopedCrop? _reference;

    internal DevelopedCrop(Level level, CropSubject subject, CutSamples[] frames, ImmutableArray<BrightnessMatch> matches, double clippedShare, CropRecipe recipe)
    {
        (Level, Subject, _frames, Matches, ClippedShare, _recipe) = (level, subject, frames, matches, clippedShare, recipe);
        _means = new(() => Linear(HasPair ? PairMix.OfFirst(0.5) : PairMix.FirstAlone, PrintScale.PixelForPixel).Means);
    }

    /// <summary>The level, usable or not.</summary>
    public Level Level { get; }

    /// <summary>What it shows: dark, mid tone or texture.</summary>
    public CropSubject Subject { get; }

    /// <summary>Where it lies in the frames of its level: the same at every level, or as far beside as the camera had moved.</summary>
    public CropPosition Place => new(Subject, _frames[0].Left, _frames[0].Top);

    /// <summary>Sensor pixels along it.</summary>
    public int SidePixels => _frames[0].Side;

    /// <summary>Files that it was cut from, one or two.</summary>
    public ImmutableArray<string> Files => [.. _frames.Select(f => f.File)];

    /// <summary>True when there are two frames, so that they can be mixed.</summary>
    public bool HasPair => _frames.Length > 1;

    /// <summary>How each frame was made as bright as the reference level, or why it was not.</summary>
    public ImmutableArray<BrightnessMatch> Matches { get; }

    /// <summary>True when all frames are as bright as the reference: only then may levels be compared by eye.</summary>
    public bool IsMatched => Matches.All(m => m.IsMatched);

    /// <summary>Why they are not, in a sentence; null when they are.</summary>
    public string? Refusal => Matches.Select(m => m.Refusal).FirstOrDefault(r => r is not null);

    /// <summary>How much the first frame was brightened against the reference level in linear light (green), stops; negative = darkened.</summary>
    public double CorrectionStops => Matches[0].CorrectionStops;

    /// <summary>How much brighter than a plain development (metered mid-grey shown as 0.18) all levels of this subject are, stops.</summary>
    public double LiftStops => _recipe.LiftStops;

    /// <summary>Share of clipped samples, 0 to 1.</summary>
    public double ClippedShare { get; }

    /// <summary>How missing colours are worked out: its weights tell what becomes of noise.</summary>
    public MosaicInterpolation Interpolation => _recipe.Interpolation;

    /// <summary>The white balance that was applied before the interpolation.</summary>
    public WhiteBalance Balance => _recipe.Balance;

    /// <summary>From <see cref="SensorLight"/> to linear sRGB.</summary>
    public CameraColour Colour => _recipe.Colour;

    /// <summary>Linear light (1 = white) of one DN of a channel of a frame, balance, match and lift included: turns the noise of a sensor model into that of <see cref="SensorLight"/>.</summary>
    /// <param name="frame">0 or 1.</param>
    /// <param name="channel">0 red, 1 green, 2 blue; 0 without filters.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such frame or channel.</exception>
    public double LightOfDn(int frame, int channel)
    {
        if (frame < 0 || frame >= _frames.Length) throw new ArgumentOutOfRangeException(nameof(frame), frame, "There is no such frame in this level.");
        return Matches[frame].Factors[channel] * _recipe.WhiteOfDn * (_recipe.Interpolation.Channels == 1 ? 1 : _recipe.Balance[channel]);
    }

    /// <summary>One frame in linear light of the sensor's own colours, balanced, matched and interpolated; 1 = white. Pixel for pixel, nothing cut off.</summary>
    /// <param name="frame">0 or 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such frame.</exception>
    public LinearPicture SensorLight(int frame) => Interpolated(Balanced(frame));

    /// <summary>The crop in linear sRGB; 1 = white.</summary>
    /// <param name="mix">One frame or a mix of both.</param>
    /// <param name="scale">Pixel for pixel, or the scale of a print.</param>
    /// <exception cref="InvalidOperationException">A mix is asked for of a single frame.</exception>
    public LinearPicture Linear(PairMix mix, PrintScale scale)
    {
        ArgumentNullException.ThrowIfNull(scale);
        // All steps are linear, so the mix comes first and the rest is done once.
        return scale.Apply(Interpolated(Mixed(mix)).In(_recipe.Colour));
    }

    /// <summary>Makes its pictures exactly as bright as those of the level that the others are compared with, where they are matched at all: the match is of the samples, and the colours worked out between them are left with chance.</summary>
    internal void ShowAsBrightAs(DevelopedCrop reference) => _reference = reference;

    /// <summary>The crop as a PNG file, sRGB, eight bits a channel, as bright after the cut at black as before it, and as the reference level (<see cref="LinearPicture.CutAtBlack"/>).</summary>
    /// <param name="mix">One frame or a mix of both.</param>
    /// <param name="scale">Pixel for pixel, or the scale of a print.</param>
    /// <exception cref="InvalidOperationException">A mix is asked for of a single frame.</exception>
    public byte[] Png(PairMix mix, PrintScale scale) => PicturePng.Of(Linear(mix, scale).CutAtBlack(IsMatched ? _reference?._means.Value : null));

    /// <summary>Variance of the luminance noise of one frame in linear light, from the difference of the pair: half the variance of the difference. Null without a pair.</summary>
    /// <param name="scale">Scale at which it is looked at.</param>
    public double? NoiseVariance(PrintScale scale)
    {
        if (!HasPair) return null;
        float[] first = Luminance(Linear(PairMix.FirstAlone, scale)), second = Luminance(Linear(PairMix.SecondAlone, scale));
        double[] differences = [.. first.Zip(second, (a, b) => (double)a - b)];
        double mean = differences.Average();
        return differences.Average(d => (d - mean) * (d - mean)) / 2;
    }

    /// <summary>Adds what this was cut from to a hash.</summary>
    internal void MarkIn(NonCryptographicHashAlgorithm hash)
    {
        hash.Append(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{Subject} {Level.Iso.Speed:R} {_frames.Length}\n")));
        foreach (CutSamples frame in _frames) frame.MarkIn(hash);
    }

    private static float[] Luminance(LinearPicture picture)
    {
        if (picture.Channels.Count == 1) return picture.Channels[0];
        ColourMatrix toXyz = RgbSpace.Srgb.MatrixToXyz;
        return [.. Enumerable.Range(0, picture.Width * picture.Height).Select(i => (float)(toXyz.M21 * picture.Channels[0][i] + toXyz.M22 * picture.Channels[1][i] + toXyz.M23 * picture.Channels[2][i]))];
    }

    private float[] Mixed(PairMix mix)
    {
        if (mix.Second == 0) return Balanced(0);
        if (!HasPair) throw new InvalidOperationException("This level has one frame only: there is nothing to mix it with.");
        if (mix.First == 0) return Balanced(1);
        float[] first = Balanced(0), second = Balanced(1);
        for (int i = 0; i < first.Length; i++) first[i] = mix.Of(first[i], second[i]);
        return first;
    }

    private float[] Balanced(int frame)
    {
        if (frame < 0 || frame >= _frames.Length) throw new ArgumentOutOfRangeException(nameof(frame), frame, "There is no such frame in this level.");
        return _frames[frame].Light([.. Enumerable.Range(0, _recipe.Interpolation.Channels).Select(c => LightOfDn(frame, c))], _recipe.Interpolation.Margin);
    }

    private LinearPicture Interpolated(float[] light)
    {
        int margin = _recipe.Interpolation.Margin;
        return new LinearPicture(SidePixels, SidePixels, _recipe.Interpolation.Apply(light, SidePixels + 2 * margin, _frames[0].Top - margin, _frames[0].Left - margin));
    }
}
