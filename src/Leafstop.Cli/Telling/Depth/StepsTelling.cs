using System.Globalization;
using System.Text.Json;
using Leafstop.Cli.Verbs;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling.Depth;

/// <summary>Focus steps that hold limits at an aperture.</summary>
internal sealed class StepsTelling(DepthCall asked, DepthAnswer answer, FNumber aperture, FocusSteps steps) : DepthTelling(asked)
{
    private int Count => steps.Frames.Length;

    private bool IsSingle => Count == 1;

    private DepthOfField Single => steps.Frames[0];

    private string Limits => $"{Told(Asked.Near!)} to {Told(Asked.Far!)}";

    private double ContrastOfOne => answer.ContrastAt(aperture);

    public override string Verdict => IsSingle
        ? $"One frame at {aperture.ToDisplay()}, focused at {Told(Measured(Single, Single.Focus))}, holds {Limits} {Judged}."
        : $"{Count.ToString(CultureInfo.InvariantCulture)} focus steps at {aperture.ToDisplay()} hold {Limits} {Judged}.";

    public override IEnumerable<string> Numbers
    {
        get
        {
            if (IsSingle && ContrastOfOne < SharpestAperture.JustSharpContrast)
                yield return $"That is by geometry; with diffraction {Figures.Percent(ContrastOfOne)} of the contrast of the finest detail is left at the limits, {Figures.Percent(SharpestAperture.JustSharpContrast)} is asked.";
            if (!IsSingle)
            {
                yield return $"Each step shares {Figures.Percent(steps.Overlap)} of its depth with the next; {Asked.Overlap.ToDisplay()} was asked.";
                yield return answer.Holding is not null
                    ? $"One frame would do at f/{Figures.Fixed(answer.Holding.Widest.Ratio, 1)}, {Figures.StopsOf(SharpestAperture.Light(answer.Holding.Widest, aperture).Value)} less light."
                    : "No aperture holds it in one frame.";
            }
        }
    }

    public override IReadOnlyList<string[]> Table => IsSingle
        ? []
        :
        [
            ["frame", "focus", "near", "far"],
            .. steps.Frames.Select((f, i) => (string[])
                [(i + 1).ToString(CultureInfo.InvariantCulture), Told(Measured(f, f.Focus)), Told(Measured(f, f.Near)), Told(Measured(f, f.Far))]),
        ];

    public override IEnumerable<string> Cautions => IsSingle ? [] : ["Focus steps and moving leaves fight each other: what moves between two frames does not fit together. Take them in a lull, the same aperture in all."];

    public override IEnumerable<string> Formulas =>
    [
        "Limits of each frame: s f² / (f² ± N c (s − f)), exact thin lens. [LENSFAQ]",
        "Steps: with q = 1/f − 1/x every frame covers the ratio (1 + N c / f) / (1 − N c / f) of q, so focus goes in a geometric series of q.",
        "Diffraction is the same in all frames and is not counted in the limits.",
    ];

    protected override void WriteAnswer(Utf8JsonWriter json)
    {
        FocusAnswer first = FocusAnswer.Of(Asked.Lens, aperture, Single.Focus, Asked.Blur, answer.Wavelength);
        WriteDistance(json, "nearMm", Asked.Near!);
        WriteDistance(json, "farMm", Asked.Far!);
        json.WriteNumber("aperture", aperture.Ratio);
        WriteDistance(json, "hyperfocalMm", Asked.AsMeasured(first.Hyperfocal, first.Hyperfocal));
        json.WriteNumber("airyMm", first.Airy.Millimetres);
        json.WriteNumber("overlapShare", steps.Overlap);
        json.WriteStartArray("steps");
        foreach (DepthOfField frame in steps.Frames)
        {
            json.WriteStartObject();
            WriteDistance(json, "focusMm", Measured(frame, frame.Focus));
            WriteDistance(json, "nearMm", Measured(frame, frame.Near));
            WriteDistance(json, "farMm", Measured(frame, frame.Far));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteNumber("contrastOfOneFrame", ContrastOfOne);
    }

    private SubjectDistance Measured(DepthOfField frame, SubjectDistance fromLens) => Asked.AsMeasured(frame.Focus, fromLens);
}
