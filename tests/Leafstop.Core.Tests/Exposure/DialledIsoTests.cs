using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class DialledIsoTests
{
    // Published: job, pocket card and answers 6 and 10; the half-way case 2^(5/6) · 100 goes up. Rounding derived from the exact power of the mark.
    [Theory]
    [InlineData(503.968419957949, 500, 0)]
    [InlineData(178.179743628068, 200, 1 / 6.0)]
    [InlineData(565.685424949238, 640, 1 / 6.0)]
    [InlineData(282.842712474619, 320, 1 / 6.0)]
    [InlineData(16127, 16000, 0)]
    [InlineData(1000, 1000, 0.0114)]
    public void It_says_what_it_rounded(double exact, double dial, double by)
    {
        var iso = DialledIso.Of(Iso.FromSpeed(exact));
        Assert.Equal(dial, iso.Dial.Speed);
        Assert.Equal(by, iso.RoundedBy.Value, 1e-4);
        Assert.False(iso.IsBeyondDial);
    }

    [Fact]
    public void An_ISO_beyond_every_dial_is_said_to_be() => Assert.True(DialledIso.Of(Iso.FromSpeed(5e6)).IsBeyondDial);
}
