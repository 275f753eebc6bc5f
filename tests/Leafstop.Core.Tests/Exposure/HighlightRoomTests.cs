using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class HighlightRoomTests
{
    private static readonly Iso Iso500 = Iso.FromMarking(500);

    // Published: EXP-29 (FILMSP): 18 % grey lies at 12.7279 % of saturation, which leaves 2.97 stops (job: 2.97).
    [Fact]
    public void The_clip_lies_2_97_stops_over_mid_grey() => Assert.Equal(2.97, HighlightRoom.ClipOverMidGrey.Value, 0.005);

    // Published: EXP-24 (HDRI): a 141 % reflector saturates, half a stop above a 100 % one, which lies log2(1/0.18) over mid-grey; EXP-29: 0.127279.
    [Fact]
    public void A_white_sheet_has_half_a_stop_left()
    {
        Assert.Equal(0.5, HighlightRoom.Of(Stops.FromRatio(1 / 0.18), Iso500, Iso500).Left.Value, 1e-9);
        Assert.Equal(0.127279, 1 / HighlightRoom.ClipOverMidGrey.Ratio, 5e-7);
    }

    // Published: job E6: foam 2.7 stops over mid-grey has 0.27 stop left; two decimals printed.
    [Fact]
    public void Foam_in_shade_has_a_quarter_stop_left()
    {
        var room = HighlightRoom.Of(Stops.Of(2.7), Iso500, Iso500);
        Assert.Equal(0.27, room.Left.Value, 0.005);
        Assert.False(room.IsClipped);
        Assert.Equal(0, room.BracketStops);
    }

    // Published: job E6: two stops brighter, clipped by 1.7; next time ISO 125 or lower, or bracket −2.
    [Fact]
    public void Sun_on_the_foam_clips_it_and_says_what_to_do()
    {
        var room = HighlightRoom.Of(Stops.Of(4.7), Iso500, Iso500);
        Assert.True(room.IsClipped);
        Assert.Equal(-1.7, room.Left.Value, 0.05);
        Assert.Equal(125, room.HighestIso.Speed);
        Assert.Equal(2, room.BracketStops);
    }

    // Published: job, answer 22: at ISO 100 in the light of ISO 500 there are 2.6 stops over shaded foam and 0.6 with the sun on it.
    [Theory]
    [InlineData(2.7, 2.6)]
    [InlineData(4.7, 0.6)]
    public void Base_ISO_in_the_same_light_keeps_its_stops(double placed, double left) =>
        Assert.Equal(left, HighlightRoom.Of(Stops.Of(placed), Iso500, Iso.FromSpeed(100)).Left.Value, 0.05);

    // Derived: at the highest ISO it names, the foam is not clipped; a third higher it is.
    [Fact]
    public void The_ISO_it_names_is_the_highest_that_keeps_it()
    {
        var room = HighlightRoom.Of(Stops.Of(4.7), Iso500, Iso500);
        Assert.False(HighlightRoom.Of(Stops.Of(4.7), Iso500, Iso.FromMarking(room.HighestIso.Speed)).IsClipped);
        Assert.True(HighlightRoom.Of(Stops.Of(4.7), Iso500, Iso.FromMarking(160)).IsClipped);
    }
}
