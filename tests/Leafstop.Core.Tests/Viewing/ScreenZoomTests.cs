using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class ScreenZoomTests
{
    // Derived: (600 / 600) / (63.40 / 300) = 4.73; the job's worked answer is 4.7.
    [Fact]
    public void A_three_inch_screen_at_thirty_centimetres_wants_4_7_for_a_print_of_60_cm_at_60_cm() =>
        Assert.Equal(4.73, ScreenZoom.EqualTo(Length.FromCentimetres(60), Length.FromCentimetres(60), FrameFormat.FullFrame, ScreenZoom.UsualDiagonal, ScreenZoom.UsualDistance), 0.005);

    // Derived: twice as wide seen from twice as far fills the same angle.
    [Fact]
    public void A_print_twice_as_wide_from_twice_as_far_wants_the_same_zoom() => Assert.Equal(
        ScreenZoom.EqualTo(Length.FromCentimetres(60), Length.FromCentimetres(60), FrameFormat.FullFrame, ScreenZoom.UsualDiagonal, ScreenZoom.UsualDistance),
        ScreenZoom.EqualTo(Length.FromCentimetres(120), Length.FromCentimetres(120), FrameFormat.FullFrame, ScreenZoom.UsualDiagonal, ScreenZoom.UsualDistance), 1e-12);
}
