using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Published and derived rows of the reference tables for the formulas of the sensor model.</summary>
public sealed class FormulaTests
{
    private static readonly MosaicPattern TwoByTwo = new() { Rows = 2, Columns = 2, Letters = "RGGB" };
    private static readonly LuminanceNoise Bilinear = LuminanceNoise.Of(MosaicInterpolation.Bilinear(TwoByTwo));

    [Fact]
    public void Electrons_for_a_ratio_of_one_are_the_exact_root() =>
        Assert.Equal(3.5413813, NeededSignal.Electrons(1, 3), 1e-6); // Published: SEN-11 (derived there), sigma 3.

    [Theory] // Published: SEN-13.
    [InlineData(10, 3, 108.309519)]
    [InlineData(40, 3, 1608.949937)]
    public void Electrons_for_a_wanted_ratio(double ratio, double readNoise, double electrons) =>
        Assert.Equal(electrons, NeededSignal.Electrons(ratio, readNoise), 1e-5);

    [Fact]
    public void Needed_signal_is_the_inverse_of_the_ratio()
    {
        var model = new NoiseModel(1, 3.6, 50000);
        foreach (double ratio in new[] { 0.1, 1, 9.4, 28, 200 })
            Assert.Equal(ratio, model.SignalToNoise(NeededSignal.Electrons(ratio, 3.6)), 1e-9 * ratio); // Derived: round trip.
    }

    [Fact]
    public void Signal_to_noise_is_the_ccd_equation() =>
        Assert.Equal(29.88306, new NoiseModel(1, 10.94645, 50000).SignalToNoise(1000), 1e-4); // Published: SEN-15 (CCDEQ).

    [Fact]
    public void Dynamic_range_is_saturation_over_read_noise_in_stops() =>
        Assert.Equal(14.024678, new NoiseModel(1, 3, 50000).DynamicRangeStops, 1e-5); // Published: SEN-16.

    [Fact]
    public void Range_to_the_floor_of_ratio_one_is_the_stricter_form() =>
        Assert.Equal(13.785328, Math.Log2(50000 / NeededSignal.Electrons(1, 3)), 1e-5); // Published: SEN-16, second value.

    [Fact]
    public void Best_ratio_is_the_root_of_saturation()
    {
        var model = new NoiseModel(3.56164319936, 0, 13972.6302563);
        Assert.Equal(118.205880802, model.SignalToNoise(model.SaturationElectrons), 1e-6); // Published: SEN-06 (EMVAX).
    }

    [Fact]
    public void The_range_of_a_measured_camera_comes_out_as_its_standard_report_gives_it()
    {
        // Published: SEN-05, SEN-07 (EMVAX): the report counts from sigma_y.dark/K + 1/2 electrons, per photon at 45.1356 %.
        double floor = 3.07341849276 * 3.56164319936 + 0.5;
        Assert.Equal(25.3600660517, floor / 0.451356082834, 1e-6);
        Assert.Equal(1220.69871336, 13972.6302563 / floor, 1e-5);
    }

    [Fact]
    public void Mid_grey_lies_an_eighth_below_saturation() =>
        Assert.Equal(0.127279, MeteredTone.MidGreyShare, 5e-7); // Published: EXP-29 (FILMSP).

    [Fact]
    public void Mid_grey_leaves_nearly_three_stops_of_headroom() =>
        Assert.Equal(2.97, -Math.Log2(MeteredTone.MidGreyShare), 0.005); // Published: the scenario's own 2.97 stops, two decimals.

    [Fact]
    public void Pixels_per_degree_of_the_standard_print() =>
        Assert.Equal(30.544, PrintCriterion.PixelsPerDegree(7, 250), 1e-3); // Published: EXP-33.

    [Fact]
    public void Pixels_per_degree_of_a_sixty_centimetre_print() =>
        Assert.Equal(104.72, PrintCriterion.PixelsPerDegree(6000 / 600.0, 600), 0.01); // Published: PRN-01.

    [Theory] // Published: EXP-31, criterion for excellent at 100 and 35 px/cm seen from 25 cm.
    [InlineData(100, 28)]
    [InlineData(35, 80)]
    public void The_wanted_ratio_falls_as_the_print_gets_finer(double pixelsPerCm, double ratio) =>
        Assert.Equal(ratio, PrintCriterion.Needed(PrintCriterion.Clean, PrintCriterion.PixelsPerDegree(pixelsPerCm / 10, 250)), 1e-9);

    [Fact]
    public void Beyond_sixty_pixels_a_degree_pixels_are_merged_to_sixty()
    {
        // Derived: the need stops falling there, and the side of the merged square takes over.
        double at60 = PrintCriterion.Needed(PrintCriterion.Clean, 60);
        Assert.Equal(40 * 30.544 / 60, at60, 1e-3);
        Assert.Equal(at60, PrintCriterion.Needed(PrintCriterion.Clean, 120), 1e-9);
        Assert.Equal((1, 2), (PrintCriterion.MergedSide(45), PrintCriterion.MergedSide(120)));
    }

    [Fact]
    public void Bilinear_interpolation_leaves_the_published_shares_of_noise()
    {
        Assert.Equal(0.625, Bilinear.VarianceShare(1, 1), 1e-12); // Published: SEN-48.
        Assert.Equal(0.5625, Bilinear.VarianceShare(0, 1), 1e-12); // Published: SEN-48.
    }

    [Fact]
    public void Merging_many_pixels_leaves_the_noise_of_the_samples_there_were()
    {
        // Derived: the mean over a large square is the mean of its own raw samples, half of them green, a quarter red or blue,
        // whatever lies between. At a side of 1000 the rim of the square still counts for less than a thousandth.
        Assert.Equal(2, Bilinear.VarianceShare(1, 1000) * 1e6, 0.002);
        Assert.Equal(4, Bilinear.VarianceShare(0, 1000) * 1e6, 0.008);
    }

    [Fact]
    public void Merged_noise_agrees_with_noise_that_is_really_interpolated_and_merged()
    {
        // Derived: white noise on a green checkerboard, interpolated and averaged over 2 x 2 squares of every phase; 500 x 500 give 0.4 %.
        var random = new Random(5);
        const int size = 1000;
        var full = new double[size, size];
        for (int y = 0; y < size; y++)
            for (int x = 0; x < size; x++)
                if ((x + y) % 2 == 0) full[y, x] = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        double squares = 0;
        int n = 0;
        for (int y = 1; y + 2 < size; y += 2)
            for (int x = 1; x + 2 < size; x += 2, n++)
                squares += Math.Pow((At(x, y) + At(x + 1, y) + At(x, y + 1) + At(x + 1, y + 1)) / 4, 2);
        Assert.Equal(Bilinear.VarianceShare(1, 2), squares / n, 0.02 * Bilinear.VarianceShare(1, 2));

        double At(int x, int y) => (x + y) % 2 == 0 ? full[y, x] : (full[y, x - 1] + full[y, x + 1] + full[y - 1, x] + full[y + 1, x]) / 4;
    }

    [Fact]
    public void Luminance_weighs_the_planes_by_the_published_row()
    {
        // Derived from SEN-48 and PER-35 (0.2126390, 0.7151687, 0.0721923), which prints seven decimals.
        double variance = 0.2126390 * 0.2126390 * 0.5625 + 0.7151687 * 0.7151687 * 0.625 + 0.0721923 * 0.0721923 * 0.5625;
        Assert.Equal(1 / Math.Sqrt(variance), Bilinear.SignalToNoiseGain(1), 1e-6);
    }
}
