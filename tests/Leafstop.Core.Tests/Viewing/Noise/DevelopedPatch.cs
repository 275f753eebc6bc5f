using Leafstop.Core.Colour;
using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Testing;

namespace Leafstop.Core.Tests.Viewing;

/// <summary>Patches of an even grey as Body A would record and a developer show them: electrons, read noise, mosaic, balance, interpolation, matrix, curve. Seeded.</summary>
internal sealed record DevelopedPatch
{
    public static readonly MosaicPattern TwoByTwo = new() { Rows = 2, Columns = 2, Letters = "RGGB" };
    public static readonly MosaicPattern SixBySix = new() { Rows = 6, Columns = 6, Letters = "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG" };

    // WB-01: a neutral records 0.5, 1, 0.6 of the green.
    private static readonly double[] Neutral = [0.5, 1, 0.6];

    /// <summary>An invented camera matrix whose rows add up to 1.</summary>
    public static readonly ColourMatrix CameraToSrgb = new(1.70, -0.55, -0.15, -0.20, 1.45, -0.25, 0.02, -0.50, 1.48);

    public required double Iso { get; init; }

    /// <summary>Stops from metered mid-grey.</summary>
    public required double ToneEv { get; init; }

    public MosaicPattern Mosaic { get; init; } = TwoByTwo;

    public bool Bilinear { get; init; }

    public MosaicInterpolation Interpolation => _interpolation ??= Bilinear ? MosaicInterpolation.Bilinear(Mosaic) : MosaicInterpolation.SharedDetail(Mosaic);

    public int Seed { get; init; } = 1;

    public int Side { get; init; } = 384;

    /// <summary>Offsets of whole rows, electrons, standard deviation.</summary>
    public double RowOffsets { get; init; }

    private MosaicInterpolation? _interpolation;

    /// <summary>Rises like light on film, cut off at black as a coded picture is.</summary>
    public static double Curve(double scene) => scene <= 0 ? 0 : 1 - Math.Exp(-1.1 * scene);

    // Published: job, part 0, Body A.
    public static NoiseModel BodyA(double iso) => new(1, iso switch { 100 => 3.6, 400 => 3.1, 800 => 1.5, 1600 => 1.4, 3200 => 1.3, _ => 1.25 }, 50_000 * 100 / iso);

    public PlaneTone[] Planes()
    {
        NoiseModel model = BodyA(Iso);
        return [.. Mosaic.PlaneNames().Select(name =>
        {
            double share = Neutral[name[0] switch { 'R' => 0, 'G' => 1, _ => 2 }];
            // Mid-grey, 0.127 of saturation, becomes 0.18.
            return new PlaneTone(model, share * model.SaturationElectrons * MeteredTone.MidGreyShare * Math.Pow(2, ToneEv), Math.Sqrt(2) / share);
        })];
    }

    public DevelopedNoise Predicted() => DevelopedNoise.Of(Interpolation, Planes(), CameraToSrgb, Curve);

    public NoiseImage Image() => NoiseImage.FromPair(Side, Frame(2 * Seed), Frame(2 * Seed + 1));

    private float[][] Frame(int seed)
    {
        PlaneTone[] planes = Planes();
        IReadOnlyList<int> planeOfSite = Mosaic.PlaneOfSite();
        int margin = Interpolation.Margin, full = Side + 2 * margin;
        var normal = new Gaussian(seed);
        var random = new Random(seed);
        var samples = new float[full * full];
        for (int y = 0; y < full; y++)
        {
            double offset = RowOffsets * normal.Next();
            for (int x = 0; x < full; x++)
            {
                PlaneTone plane = planes[planeOfSite[y % Mosaic.Rows * Mosaic.Columns + x % Mosaic.Columns]];
                double electrons = Electrons(plane.SignalElectrons) + plane.Model.ReadNoiseElectrons * normal.Next() + offset;
                samples[y * full + x] = (float)(electrons / plane.Model.SaturationElectrons * plane.Balance);
            }
        }
        float[][] camera = Interpolation.Apply(samples, full, 0, 0);
        float[][] shown = [new float[Side * Side], new float[Side * Side], new float[Side * Side]];
        for (int i = 0; i < Side * Side; i++)
        {
            var (r, g, b) = CameraToSrgb.Apply(camera[0][i], camera[1][i], camera[2][i]);
            (shown[0][i], shown[1][i], shown[2][i]) = ((float)Curve(r), (float)Curve(g), (float)Curve(b));
        }
        return shown;

        double Electrons(double mean)
        {
            if (mean > 200) return mean + Math.Sqrt(mean) * normal.Next(); // lopsidedness of 1/√200 is far below what is tested
            double limit = Math.Exp(-mean), product = random.NextDouble();
            int count = 0;
            for (; product > limit; count++) product *= random.NextDouble();
            return count;
        }
    }
}
