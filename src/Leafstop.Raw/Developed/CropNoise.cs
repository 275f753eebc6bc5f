using System.Collections.Immutable;
using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Visible noise of a smooth place at one level: measured in its own pair of developed crops, and beside it worked out from the sensor model of the level.</summary>
/// <remarks>A witness beside the person's own judging, never the judge, and told only after it. Both are of linear light that is not cut at black: on a screen or paper the grain of a deep dark is weaker
/// (<see cref="LinearPicture.CutAtBlack"/>), and <see cref="VisibleNoiseMeasurement.AtBlackOrWhite"/> tells where.</remarks>
/// <param name="Level">The level.</param>
/// <param name="Subject">Dark or mid tone; texture has no even tone.</param>
/// <param name="Measured">From the difference of the two frames.</param>
/// <param name="Predicted">From gain and read noise of the level's planes; null where they are not known.</param>
public sealed record CropNoise(Level Level, CropSubject Subject, VisibleNoiseMeasurement Measured, VisibleNoise? Predicted)
{
    /// <summary>The middle of a larger crop is measured, pixels: it tells lightness to a few per cent, and a ladder takes a moment.</summary>
    private const int MostSide = 256;

    /// <summary>Measures the smooth places of the levels that have a pair and crops of at least <see cref="NoiseImage.LeastSide"/> pixels.</summary>
    /// <param name="crops">The crops of a ladder.</param>
    /// <param name="isos">Levels that are wanted.</param>
    /// <param name="pixelsPerDegree">Pixels of the print in a degree, see <see cref="ViewingCondition.PixelsPerDegree"/>.</param>
    /// <returns>By subject, then by ISO; empty when no crop can be measured.</returns>
    public static ImmutableArray<CropNoise> Of(DevelopedCrops crops, IEnumerable<Iso> isos, double pixelsPerDegree)
    {
        ArgumentNullException.ThrowIfNull(crops);
        Iso[] wanted = [.. isos];
        return
        [
            .. crops.Crops
                .Where(c => c.Subject is CropSubject.Dark or CropSubject.MidTone && c.HasPair && c.SidePixels >= NoiseImage.LeastSide && wanted.Contains(c.Level.Iso))
                .Select(c => new CropNoise(c.Level, c.Subject, VisibleNoiseMeasurement.Of(Image(c), pixelsPerDegree), Predict(c)?.Seen(pixelsPerDegree))),
        ];
    }

    private static NoiseImage Image(DevelopedCrop crop) => NoiseImage.FromPair(
        Math.Min(MostSide, crop.SidePixels), Middle(crop.Linear(PairMix.FirstAlone, PrintScale.PixelForPixel)), Middle(crop.Linear(PairMix.SecondAlone, PrintScale.PixelForPixel)));

    private static float[][] Middle(LinearPicture picture)
    {
        int side = Math.Min(MostSide, picture.Width), left = (picture.Width - side) / 2, top = (picture.Height - side) / 2;
        // Without filters the three channels are one and the same.
        return
        [
            .. Enumerable.Range(0, 3).Select(c =>
            {
                float[] from = picture.Channels[picture.Channels.Count == 1 ? 0 : c], into = new float[side * side];
                for (int y = 0; y < side; y++)
                    from.AsSpan((top + y) * picture.Width + left, side).CopyTo(into.AsSpan(y * side));
                return into;
            }),
        ];
    }

    private static DevelopedNoise? Predict(DevelopedCrop crop)
    {
        MosaicInterpolation interpolation = crop.Interpolation;
        IReadOnlyList<string> names = interpolation.Mosaic.PlaneNames();
        PlaneModel?[] models = [.. names.Select(n => crop.Level.Planes.FirstOrDefault(p => p.Plane == n))];
        if (models.Any(m => m is not { GainElectronsPerDn.Value: > 0, ReadNoiseElectrons.Value: > 0 } || !(m.ClipDn > m.BlackDn)))
            return null;
        int[] planeOfSite = [.. interpolation.Mosaic.PlaneOfSite()];
        IReadOnlyList<double> first = crop.SensorLight(0).Means, second = crop.SensorLight(1).Means;
        PlaneTone[] tones =
        [
            .. models.Select((model, plane) =>
            {
                int channel = interpolation.ChannelOfSite[Array.IndexOf(planeOfSite, plane)];
                double gain = model!.GainElectronsPerDn.Value, saturation = (model.ClipDn - model.BlackDn) * gain;
                double lightOfDn = (crop.LightOfDn(0, channel) + crop.LightOfDn(1, channel)) / 2, light = Math.Max(0, (first[channel] + second[channel]) / 2);
                return new PlaneTone(new NoiseModel(gain, model.ReadNoiseElectrons.Value, saturation), light / lightOfDn * gain, lightOfDn / gain * saturation);
            }),
        ];
        // Crops have no tone curve but that of the display, which the eye's model has in it.
        return DevelopedNoise.Of(interpolation, tones, crop.Colour.ToSrgb, light => light);
    }
}
