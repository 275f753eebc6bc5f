using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class DepthAnswerTests
{
    // Derived: a print 60 cm wide seen from 60 cm with 1.43′ on 36 × 24 mm permits 0.015 mm: the answer is that of the circle.
    [Fact]
    public void A_print_and_its_circle_of_confusion_give_the_same_answer()
    {
        var viewing = ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1.43));
        var print = PermittedBlur.OfPrint(new PrintedFrame(viewing, FrameFormat.FullFrame, 1));
        Assert.Equal(0.015, print.Circle.Millimetres, 0.00005);
        DepthAnswer byPrint = Of(print);
        DepthAnswer byCircle = Of(PermittedBlur.OfCircle(print.Circle));
        Assert.Equal(byCircle.Sharpest, byPrint.Sharpest);
        Assert.Equal(byCircle.ByGeometry, byPrint.ByGeometry);
        Assert.Equal(viewing.FinestDetail.Millimetres, print.OnPrint(print.Circle)!.Value.Millimetres, 1e-12);
        Assert.Null(byCircle.Blur.OnPrint(print.Circle));
    }

    // Derived: the rule's contrast is never above the exact best, and their difference in stops is that of the two f-numbers.
    [Fact]
    public void The_rule_never_leaves_more_contrast_than_the_exact_best() =>
        Gen.Select(Gen.Double[14, 85], Gen.Double[25, 200], Gen.Double[1.3, 100], Gen.Double[0.012, 0.04]).Sample((f, nearTimes, farTimes, c) =>
        {
            var demand = DepthDemand.Of(Mm(f), SubjectDistance.FromMillimetres(f * nearTimes), SubjectDistance.FromMillimetres(f * nearTimes * farTimes));
            DepthAnswer answer = DepthAnswer.Of(demand, PermittedBlur.OfCircle(Length.FromMillimetres(c)), Diffraction.GreenLight);
            return answer.Sharpest is null || (answer.ByRule.Contrast <= answer.Sharpest.Contrast + 1e-9
                && Math.Abs(answer.RuleAboveSharpest!.Value.Value - 2 * Math.Log2(answer.Sharpest.Aperture.Ratio / answer.ByRule.Aperture.Ratio)) < 1e-9);
        }, iter: 60);

    // Derived: every mark named passes both measures, and the next wider mark fails one of them.
    [Fact]
    public void Marks_that_hold_pass_by_geometry_and_by_contrast()
    {
        DepthAnswer answer = Of(PermittedBlur.OfCircle(Length.FromMillimetres(0.015)));
        FNumber[] marks = [.. answer.HoldingMarks()];
        Assert.Equal("f/11", marks[0].ToDisplay());
        Assert.All(marks, m => Assert.True(answer.Demand.BlurAtLimits(m).Millimetres <= 0.015 + 1e-9 && answer.ContrastAt(m) >= SharpestAperture.JustSharpContrast));
        FNumber wider = FNumber.FromRatio(marks[0].Ratio / Math.Pow(2, 1 / 6.0));
        FNumber smaller = FNumber.FromRatio(marks[^1].Ratio * Math.Pow(2, 1 / 6.0));
        Assert.True(answer.Demand.BlurAtLimits(wider).Millimetres > 0.015);
        Assert.True(answer.ContrastAt(smaller) < SharpestAperture.JustSharpContrast);
    }

    // Derived: 100 mm cannot hold 1 m to infinity on such a print at any aperture.
    [Fact]
    public void An_impossible_depth_has_no_aperture_that_holds()
    {
        var demand = DepthDemand.Of(Mm(100), SubjectDistance.FromMetres(1), SubjectDistance.Infinity);
        DepthAnswer answer = DepthAnswer.Of(demand, PermittedBlur.OfCircle(Length.FromMillimetres(0.015)), Diffraction.GreenLight);
        Assert.Null(answer.Holding);
        Assert.Empty(answer.HoldingMarks());
    }

    private static DepthAnswer Of(PermittedBlur blur) => DepthAnswer.Of(
        DepthDemand.Of(Mm(24), SubjectDistance.FromMetres(1.8), SubjectDistance.Infinity), blur, Diffraction.GreenLight);
}
