using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class BodyATests
{
    [Theory]
    [InlineData(100, 3.6)]
    [InlineData(200, 3.3)]
    [InlineData(400, 3.1)]
    [InlineData(500, 1.6)]
    [InlineData(640, 1.55)]
    [InlineData(800, 1.5)]
    [InlineData(1600, 1.4)]
    [InlineData(3200, 1.3)]
    [InlineData(6400, 1.25)]
    [InlineData(12800, 1.25)]
    [InlineData(25600, 1.25)]
    public void Read_noise_is_the_table_of_the_worked_model(double iso, double electrons) =>
        // Published: the read-noise table of Body A.
        Assert.Equal(electrons, BodyA.ReadNoiseElectrons(iso), 12);

    [Fact]
    public void Read_noise_between_rows_is_linear_in_stops_and_never_crosses_the_step()
    {
        // Derived: halfway in stops between 100 and 200; 320 and 499 lie on the line from 200 to 400 (-0.2 a stop), 499 within 2 % of a mark means 500.
        Assert.Equal(3.45, BodyA.ReadNoiseElectrons(100 * Math.Sqrt(2)), 9);
        Assert.Equal(3.1 - 0.2 * Math.Log2(450.0 / 400), BodyA.ReadNoiseElectrons(450), 9);
        Assert.Equal(3.3 - 0.2 * 2 / 3, BodyA.ReadNoiseElectrons(320), 9);
        Assert.Equal(1.6, BodyA.ReadNoiseElectrons(499), 9);
    }

    // Published: signal-to-noise at mid-grey, -3, -5 and -6 EV and range in stops, as the worked model lists them; rounded to the last digit shown.
    [Theory]
    [InlineData(100, 80, 28, 13.7, 9.4, 13.8)]
    [InlineData(400, 40, 13.8, 6.5, 4.2, 12.0)]
    [InlineData(500, 36, 12.5, 6.1, 4.2, 12.6)]
    [InlineData(800, 28, 9.9, 4.8, 3.3, 12.0)]
    [InlineData(3200, 14, 4.8, 2.2, 1.4, 10.2)]
    public void Signal_to_noise_and_range_are_those_of_the_worked_model(double iso, double mid, double minus3, double minus5, double minus6, double stops)
    {
        var model = new NoiseModel(BodyA.GainElectronsPerDn(iso), BodyA.ReadNoiseElectrons(iso), BodyA.SaturationElectrons(iso));
        double grey = BodyA.MidGreyShare * model.SaturationElectrons;
        Assert.Equal(mid, model.SignalToNoise(grey), 0.51);
        // At ISO 100 the list shows 28 for 28.2: whole numbers from 20 up, tenths below.
        Assert.Equal(minus3, model.SignalToNoise(grey / 8), minus3 > 20 ? 0.51 : 0.051);
        Assert.Equal(minus5, model.SignalToNoise(grey / 32), 0.051);
        Assert.Equal(minus6, model.SignalToNoise(grey / 64), 0.051);
        Assert.Equal(stops, model.DynamicRangeStops, 0.051);
    }

    [Fact]
    public void Gain_and_clip_level_belong_together()
    {
        // Derived: 50000 / (15872 - 511.6); ISO 500 means 100 * 2^(7/3).
        Assert.Equal(3.2551, BodyA.GainElectronsPerDn(100), 4);
        Assert.Equal(50_000 / Math.Pow(2, 7.0 / 3), BodyA.SaturationElectrons(500), 6);
        // Trusting the tag would be wrong by more than the 1 % that a saturation may be off.
        Assert.True((BodyA.WhiteTagDn - BodyA.BlackDn) / (BodyA.ClipDn - BodyA.BlackDn) > 1.03);
    }
}
