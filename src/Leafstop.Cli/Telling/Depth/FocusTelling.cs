using System.Text.Json;
using Leafstop.Cli.Verbs;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling.Depth;

/// <summary>What is sharp at a focus, with the apertures a stop either side.</summary>
/// <param name="asked">What was asked.</param>
/// <param name="beside">A stop wider, as asked, a stop smaller.</param>
/// <param name="points">Things whose blur is asked for.</param>
internal sealed class FocusTelling(DepthCall asked, IReadOnlyList<FocusAnswer> beside, IReadOnlyList<GivenDistance> points) : DepthTelling(asked)
{
    private FocusAnswer Answer => beside[1];

    private SubjectDistance Near => Measured(Answer.Depth.Near);

    private SubjectDistance Far => Measured(Answer.Depth.Far);

    public override string Verdict => $"Sharp from {Told(Near)} to {Told(Far)} {Judged}.";

    public override IEnumerable<string> Numbers
    {
        get
        {
            foreach (GivenDistance point in points)
            {
                Length blur = Answer.BlurAt(point.FromLens);
                yield return $"At {Told(point.Given)} a point is {Told(blur)} wide {Place}; {Told(Asked.Blur.Circle)} passes{(Passes(blur) ? "" : ", so it is soft")}.";
            }
            string infinity = Answer.Depth.Focus.IsInfinite ? "" : $"At infinity a point is {Told(Answer.BlurAtInfinity)} wide {Place}. ";
            yield return $"{infinity}Diffraction makes every point {Told(Answer.PointWidth)} wide. Hyperfocal distance: {Told(Hyperfocal)}.";
            if (Answer.ContrastAtFocus < SharpestAperture.JustSharpContrast)
                yield return $"Diffraction alone is more than passes: at the focus itself {Figures.Percent(Answer.ContrastAtFocus)} of the contrast of the finest detail is left.";
        }
    }

    public override IReadOnlyList<string[]> Table =>
    [
        ["", "near", "far", .. points.Select(p => $"at {Told(p.Given)}"), "infinity", "diffraction", "light"],
        .. beside.Select(a => (string[])
        [
            a.Aperture.ToDisplay(), Told(Measured(a.Depth.Near)), Told(Measured(a.Depth.Far)),
            .. points.Select(p => Told(a.BlurAt(p.FromLens))), Told(a.BlurAtInfinity), Told(a.PointWidth), Light(a),
        ]),
    ];

    public override IEnumerable<string> Formulas =>
    [
        "Limits: s f² / (f² ± N c (s − f)), exact thin lens. [LENSFAQ]",
        "Hyperfocal: f² / (N c) + f. [LENSFAQ]",
        "Blur of a point at x: (f² / N) |x − s| / (x (s − f)), on the sensor; times the enlargement on the print.",
        "Diffraction: 1.029 λ N wide at half of its peak, first dark ring 2.439 λ N across, with the effective f-number. [IRG24]",
        $"Effective f-number N (1 + m / p): {Figures.Fixed(Answer.Effective.Ratio, 2)}.",
        $"Contrast of the finest detail, blur and diffraction together, exact: {Figures.Percent(Answer.ContrastAtFocus)} at the focus, "
            + $"{Figures.Percent(Math.Max(0, Answer.ContrastAtLimits))} at the limits; {Figures.Percent(SharpestAperture.JustSharpContrast)} is what the permitted blur leaves without diffraction.",
    ];

    private SubjectDistance Hyperfocal => Asked.AsMeasured(Answer.Hyperfocal, Answer.Hyperfocal);

    protected override void WriteAnswer(Utf8JsonWriter json)
    {
        json.WriteNumber("aperture", Answer.Aperture.Ratio);
        json.WriteNumber("effectiveAperture", Answer.Effective.Ratio);
        WriteDistance(json, "focusMm", Measured(Answer.Depth.Focus));
        WriteDistance(json, "hyperfocalMm", Hyperfocal);
        WriteLimits(json, Answer);
        json.WriteStartObject("contrast");
        json.WriteNumber("linePairsPerMm", Asked.Blur.LinePairsPerMillimetre);
        json.WriteNumber("atFocus", Answer.ContrastAtFocus);
        json.WriteNumber("atLimits", Answer.ContrastAtLimits);
        json.WriteNumber("justSharp", SharpestAperture.JustSharpContrast);
        json.WriteEndObject();
        json.WriteStartArray("beside");
        foreach (FocusAnswer other in beside.Where(a => a != Answer))
        {
            json.WriteStartObject();
            json.WriteNumber("aperture", other.Aperture.Ratio);
            json.WriteNumber("lightStops", SharpestAperture.Light(Answer.Aperture, other.Aperture).Value);
            WriteLimits(json, other);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private void WriteLimits(Utf8JsonWriter json, FocusAnswer answer)
    {
        SubjectDistance near = Measured(answer.Depth.Near);
        SubjectDistance far = Measured(answer.Depth.Far);
        WriteDistance(json, "nearMm", near);
        WriteDistance(json, "farMm", far);
        if (answer.Depth.Depth is { } depth)
            json.WriteNumber("depthMm", depth.Millimetres);
        else
            json.WriteNull("depthMm");
        json.WriteNumber("blurAtInfinityMm", answer.BlurAtInfinity.Millimetres);
        WriteOnPrint(json, "blurAtInfinityPrintMm", answer.BlurAtInfinity);
        json.WriteNumber("airyMm", answer.Airy.Millimetres);
        WriteOnPrint(json, "airyPrintMm", answer.Airy);
        json.WriteNumber("pointWidthMm", answer.PointWidth.Millimetres);
        WriteOnPrint(json, "pointWidthPrintMm", answer.PointWidth);
        json.WriteStartArray("points");
        foreach (GivenDistance point in points)
        {
            Length blur = answer.BlurAt(point.FromLens);
            json.WriteStartObject();
            WriteDistance(json, "distanceMm", point.Given);
            json.WriteNumber("blurMm", blur.Millimetres);
            WriteOnPrint(json, "blurPrintMm", blur);
            json.WriteBoolean("passes", Passes(blur));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private SubjectDistance Measured(SubjectDistance fromLens) => Asked.AsMeasured(Answer.Depth.Focus, fromLens);

    // Equal to what is permitted passes.
    private bool Passes(Length blur) => blur.Millimetres <= Asked.Blur.Circle.Millimetres * (1 + 1e-9);

    private string Light(FocusAnswer other)
    {
        double stops = SharpestAperture.Light(Answer.Aperture, other.Aperture).Value;
        return Math.Abs(stops) < Stops.Hair ? "as asked" : stops > 0 ? $"+{Figures.StopsOf(stops)}" : Figures.StopsOf(stops);
    }
}
