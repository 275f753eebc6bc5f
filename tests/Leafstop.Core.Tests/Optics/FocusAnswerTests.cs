using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class FocusAnswerTests
{
    // Derived: the parts are those of DOF-08, DOF-17 and the transfer at the frequency of the circle.
    [Fact]
    public void One_answer_holds_limits_blur_diffraction_and_contrast()
    {
        var circle = Length.FromMillimetres(0.030);
        FocusAnswer answer = FocusAnswer.Of(Mm(50), FNumber.FromRatio(8), SubjectDistance.FromMetres(5), PermittedBlur.OfCircle(circle), Diffraction.GreenLight);
        Assert.Equal(10466.667, answer.Hyperfocal.Millimetres, 1e-3);
        Assert.Equal(3389.371, answer.Depth.Near.Millimetres, 1e-3);
        Assert.Equal(0.0631313, answer.BlurAtInfinity.Millimetres, 1e-7);
        Assert.Equal(8 * (1 + 50 / 4950.0), answer.Effective.Ratio, 1e-12);
        Assert.Equal(2.4393397826782857 * 550e-6 * answer.Effective.Ratio, answer.Airy.Millimetres, 1e-15);
        Assert.Equal(Diffraction.Contrast(550e-6 * answer.Effective.Ratio / 0.030), answer.ContrastAtFocus, 1e-12);
        Assert.Equal(BlurTransfer.Exact(1 / 0.030, circle, answer.Effective, Diffraction.GreenLight), answer.ContrastAtLimits, 1e-15);
    }
}
