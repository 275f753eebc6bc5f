using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class DarkSignalTests
{
    private static readonly ShutterTime Thirty = ShutterTime.FromSeconds(30);

    // Published: job, answer 16: 30 s at 20 °C adds 1.7 e⁻, a sensor at 40 °C 4.1 to 5.5 e⁻; one decimal printed.
    [Theory]
    [InlineData(20, 8, 1.7)]
    [InlineData(40, 8, 4.1)]
    [InlineData(40, 6, 5.5)]
    public void Noise_of_a_long_exposure(double celsius, double doubling, double electrons) =>
        Assert.Equal(electrons, DarkSignal.NoiseElectrons(Thirty, celsius, doubling), 0.05);

    // Published: job, answer 16: at 1/4 s it is nothing: beside the least read noise of its table, 1.25 e⁻, it adds less than 1 %.
    [Fact]
    public void At_a_quarter_second_it_is_nothing() =>
        Assert.True(Math.Sqrt(1.25 * 1.25 + Math.Pow(DarkSignal.NoiseElectrons(ShutterTime.FromSeconds(0.25), 20, 6), 2)) < 1.25 * 1.01);

    [Fact]
    public void A_temperature_that_is_none_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DarkSignal.NoiseElectrons(Thirty, double.NaN, 6));
}
