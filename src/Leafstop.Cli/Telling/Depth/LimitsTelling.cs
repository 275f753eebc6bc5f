using System.Collections.Immutable;
using System.Text.Json;
using Leafstop.Cli.Verbs;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling.Depth;

/// <summary>Focus and aperture for limits that one frame holds, by exact contrast and by the rule of practice.</summary>
internal sealed class LimitsTelling(DepthCall asked, DepthAnswer answer) : DepthTelling(asked)
{
    // Two or three stops from wide open for most lenses: common practice, no source.
    private const double NarrowEnough = 5.6;

    private readonly ImmutableArray<FNumber> _marks = answer.HoldingMarks();

    private ApertureContrast Sharpest => answer.Sharpest!;

    private ApertureRange Holding => answer.Holding!;

    // The mark next to the sharpest, where it is among those that hold; else the aperture itself.
    private FNumber Set => Sharpest.Aperture.NearestMark() is var mark && mark >= Holding.Widest && mark <= Holding.Smallest ? mark : Sharpest.Aperture;

    private SubjectDistance Focus => Asked.AsMeasured(answer.Demand.Focus, answer.Demand.Focus);

    // So little depth that blur hardly has a say: then the lens decides, of which nothing is known here.
    private bool IsShallow => Set.Ratio < NarrowEnough && _marks is [.., var smallest] && smallest.Ratio > NarrowEnough;

    public override string Verdict => IsShallow
        ? $"Focus at {Told(Focus)} and set any mark up to {_marks[^1].ToDisplay()}: that holds {Told(Asked.Near!)} to {Told(Asked.Far!)} {Judged}."
        : $"Focus at {Told(Focus)} and set {Set.ToDisplay()}: that holds {Told(Asked.Near!)} to {Told(Asked.Far!)} sharpest {Judged}.";

    public override IEnumerable<string> Numbers
    {
        get
        {
            yield return Range;
            double above = answer.RuleAboveSharpest!.Value.Value;
            string side = Math.Abs(above) < 0.05 ? "the same" : $"{Figures.Fixed(Math.Abs(above), 1)} {(Math.Abs(above) > 1 ? "stops" : "stop")} {(above > 0 ? "wider" : "smaller")}";
            yield return $"Exact best {About(Sharpest.Aperture)}; the rule of practice says {About(answer.ByRule.Aperture)}, {side}.";
            string geometry = About(answer.ByGeometry);
            yield return answer.ByGeometry <= Sharpest.Aperture
                ? $"By geometry alone {geometry} is enough. Of the contrast of the finest detail {Figures.Percent(Sharpest.Contrast)} is left at the exact best, {Figures.Percent(answer.ByRule.Contrast)} by the rule."
                : $"Geometry alone asks for {geometry}, where diffraction leaves {Figures.Percent(answer.ContrastAt(answer.ByGeometry))} of the contrast of the finest detail; the exact best leaves {Figures.Percent(Sharpest.Contrast)}.";
        }
    }

    private string Range
    {
        get
        {
            if (IsShallow)
                return $"Take the aperture at which your lens draws best, often two or three stops from wide open (rule of thumb); smaller than {_marks[^1].ToDisplay()} diffraction takes too much.";
            if (_marks is [var widest, .., var smallest] && widest <= Set)
            {
                double more = SharpestAperture.Light(Set, widest).Value;
                return $"Every mark from {widest.ToDisplay()} to {smallest.ToDisplay()} holds it{(more > 0.3 ? $"; {widest.ToDisplay()} lets in {Figures.StopsOf(more)} more" : "")}.";
            }
            string blur = $"At {Set.ToDisplay()} the blur of the limits is {Told(answer.Demand.BlurAtLimits(Set))} {Place}, where {Told(Asked.Blur.Circle)} passes";
            return _marks is [var within, ..]
                ? $"{blur}; from {within.ToDisplay()} on it is within, for {Figures.StopsOf(-SharpestAperture.Light(Set, within).Value)} less light."
                : $"{blur}; {Figures.Percent(answer.ContrastAt(Set))} of the contrast of the finest detail is left all the same, and {Figures.Percent(SharpestAperture.JustSharpContrast)} is asked.";
        }
    }

    public override IReadOnlyList<string[]> Table => [];

    public override IEnumerable<string> Formulas =>
    [
        "Focus: 2 n F / (n + F), the harmonic mean: both limits blur alike. [exact thin lens]",
        "By geometry: N = (f² / c) (s − n) / (n (s − f)).",
        $"Exact: the contrast at {Figures.Significant(Asked.Blur.LinePairsPerMillimetre)} line pairs per mm on the sensor, one pair in a circle of confusion, at the worst place of the depth, "
            + "(4 / π) ∫ √(1 − (y + x)²) cos(8 π W x y) dy, made greatest over the f-number.",
        $"Holds: at least {Figures.Percent(SharpestAperture.JustSharpContrast)} of the contrast, what the permitted blur leaves without diffraction. Our own reading, rule of thumb.",
        $"Rule of practice: N = √(D / (2 · 2.44 λ)), D = {Figures.Fixed(answer.Demand.FocusSpread.Millimetres, 3)} mm between the sharp images of the limits. [LF]",
    ];

    protected override void WriteAnswer(Utf8JsonWriter json)
    {
        FocusAnswer set = FocusAnswer.Of(Asked.Lens, Set, answer.Demand.Focus, Asked.Blur, answer.Wavelength);
        WriteDistance(json, "nearMm", Asked.Near!);
        WriteDistance(json, "farMm", Asked.Far!);
        WriteDistance(json, "focusMm", Focus);
        json.WriteNumber("aperture", Set.Ratio);
        WriteDistance(json, "hyperfocalMm", Asked.AsMeasured(set.Hyperfocal, set.Hyperfocal));
        json.WriteNumber("blurAtLimitsMm", answer.Demand.BlurAtLimits(Set).Millimetres);
        WriteOnPrint(json, "blurAtLimitsPrintMm", answer.Demand.BlurAtLimits(Set));
        json.WriteNumber("blurAtInfinityMm", set.BlurAtInfinity.Millimetres);
        json.WriteNumber("airyMm", set.Airy.Millimetres);
        json.WriteNumber("pointWidthMm", set.PointWidth.Millimetres);
        WriteOnPrint(json, "pointWidthPrintMm", set.PointWidth);
        Aperture(json, "exact", Sharpest);
        Aperture(json, "rule", answer.ByRule);
        json.WriteNumber("ruleAboveExactStops", answer.RuleAboveSharpest!.Value.Value);
        Aperture(json, "geometry", new ApertureContrast(answer.ByGeometry, answer.ContrastAt(answer.ByGeometry)));
        json.WriteStartObject("holding");
        json.WriteNumber("widestAperture", Holding.Widest.Ratio);
        json.WriteNumber("smallestAperture", Holding.Smallest.Ratio);
        json.WriteStartArray("marks");
        foreach (FNumber mark in _marks)
            json.WriteNumberValue(mark.Ratio);
        json.WriteEndArray();
        json.WriteNumber("justSharpContrast", SharpestAperture.JustSharpContrast);
        json.WriteEndObject();
        json.WriteNumber("linePairsPerMm", Asked.Blur.LinePairsPerMillimetre);
    }

    private static string About(FNumber aperture) => aperture.Ratio < 1 ? "wider than f/1" : $"f/{Figures.Fixed(aperture.Ratio, 1)}";

    private static void Aperture(Utf8JsonWriter json, string name, ApertureContrast aperture)
    {
        json.WriteStartObject(name);
        json.WriteNumber("aperture", aperture.Aperture.Ratio);
        json.WriteNumber("contrast", aperture.Contrast);
        json.WriteEndObject();
    }
}
