using System.Globalization;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Measurement;

/// <summary>A real 12-bit camera whose gain, dark noise and saturation the EMVA 1288 documentation states (rows SEN-03 to SEN-07).</summary>
public sealed class RealSensorTests
{
    private const double PublishedGain = 3.56164319936, PublishedDarkNoiseDn = 3.07341849276, PublishedReadNoise = 10.8980275235;

    [Fact]
    public void Pair_sums_equal_the_published_integers()
    {
        // Published: EMVA 1288 reference data, sums of each pair (EMVA1288/emva1288 at 2ed0b40, EMVA1288_image_data.txt).
        int compared = 0;
        foreach (PublishedPair row in Pairs().Where(r => r.Shipped))
        {
            PairSums sums = Assert.Single(PairSums.OfSites(Read(row, 1), Read(row, 2)));
            Assert.Equal(row.SumOfBoth, sums.SumFirst + sums.SumSecond);
            Assert.Equal(row.TwiceSquaredDifference, 2 * sums.SquaredDifference);
            compared++;
        }

        Assert.Equal(64, compared);
    }

    [Fact]
    public void Gain_and_dark_noise_come_out_as_published()
    {
        // Published: SEN-03 gain 3.5616 e-/DN, SEN-04 dark noise 3.0734 DN. Tolerances 2 % and 1 %: other sound procedures on
        // these frames spread that far, because the points lie -4 % to +2 % from one line.
        GroupSurvey[] groups = [.. Pairs().Where(r => r.Shipped).Select(r => GroupMeasurement.Survey(["1", "2"], name => Read(r, int.Parse(name, CultureInfo.InvariantCulture))))];
        PairSurvey[] dark = [.. groups.SelectMany(g => g.Pairs).Where(p => p.IsCap)], lit = [.. groups.SelectMany(g => g.Pairs).Where(p => !p.IsCap && !p.IsFalsePair)];
        Estimate darkVariance = PhotonTransfer.DarkVariance([.. dark.SelectMany(p => p.Planes[0].Bins)]);
        // The published figure is all temporal noise of a pixel, which the program tells beside the read noise.
        double darkNoise = PhotonTransfer.DarkNoiseDn(darkVariance.Value, PhotonTransfer.RowNoiseDn(dark.SelectMany(p => p.Planes)));
        Assert.Equal(PublishedDarkNoiseDn, darkNoise, 0.01 * PublishedDarkNoiseDn);

        double black = groups.SelectMany(g => g.Frames).Where(f => f.IsCap).Average(f => f.Planes[0].BlackDn);
        int clip = Assert.Single(groups.SelectMany(g => g.Frames).Select(f => f.Planes[0].ClipDn).OfType<int>().Distinct());
        Assert.Equal(4095, clip);
        FitOutcome fit = PhotonTransfer.Fit([.. lit.SelectMany(p => p.Planes[0].Bins)], black, clip, darkVariance);
        Assert.Null(fit.Refusal);
        Assert.Equal(PublishedGain, fit.GainElectronsPerDn!.Value.Value, 0.02 * PublishedGain);
        Assert.Equal(PublishedReadNoise, Math.Sqrt(darkNoise * darkNoise - 1.0 / 12) * fit.GainElectronsPerDn.Value.Value, 0.03 * PublishedReadNoise);
        Assert.True(fit.IsNotLinear, "The points of this sensor bend by a few per cent: that has to be noticed.");
    }

    [Fact]
    public void Row_noise_of_the_darks_is_found_and_column_noise_is_not()
    {
        // Published beside the data: row means of a dark difference scatter by 0.49 to 0.54 DN a frame, white noise would give 0.12:
        // row noise about 0.5 DN, no column noise. Half of 0.1 DN is what neighbouring rows in common may take away.
        PairSurvey pair = Assert.Single(GroupMeasurement.Survey(["1", "2"], name => Read(Pairs().First(r => r.Kind == "dark" && r.Index == 6), int.Parse(name, CultureInfo.InvariantCulture))).Pairs);
        Assert.True(pair.IsCap);
        Assert.Equal(0.5, pair.Planes[0].RowNoiseDn, 0.06);
        Assert.InRange(pair.Planes[0].ColumnNoiseDn, 0, 0.1);
    }

    private static MosaicFrame Read(PublishedPair row, int snap)
    {
        string file = Samples.Path(Path.Combine("sensor", "emva-ccd12", $"{row.Kind[0]}_{row.Index:000}_snap_00{snap}.png"));
        var (samples, width, _) = GreyPng.Read(file);
        return PlainFrames.Of(samples, width, PlainFrames.Mono, blackDn: 0, whiteDn: 4095, file: file);
    }

    private static IEnumerable<PublishedPair> Pairs() =>
        File.ReadLines(Samples.Path(Path.Combine("sensor", "emva-ccd12", "pairs.csv"))).Skip(1).Select(line => line.Split(',')).Select(c => new PublishedPair(
            c[0], int.Parse(c[1], CultureInfo.InvariantCulture), long.Parse(c[4], CultureInfo.InvariantCulture), long.Parse(c[5], CultureInfo.InvariantCulture), c[12] == "1"));

    private sealed record PublishedPair(string Kind, int Index, long SumOfBoth, long TwiceSquaredDifference, bool Shipped);
}
