using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

public sealed class WhiteBalanceTests
{
    /// <summary>Published: WB-01.</summary>
    [Fact]
    public void A_neutral_gives_its_factors_and_noise_grows_with_them()
    {
        WhiteBalance balance = WhiteBalance.FromNeutral(0.5, 1, 0.6);
        Assert.Equal(2, balance[0]);
        Assert.Equal(1, balance[1]);
        Assert.Equal(1.6666667, balance[2], 5e-8);
        Assert.Equal(8, 4 * balance.Red);
    }

    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1, -1, 1)]
    [InlineData(1, 1, double.NaN)]
    public void A_tone_without_light_is_no_neutral(double red, double green, double blue) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WhiteBalance.FromNeutral(red, green, blue));
}
