using System.Text.Json;
using Leafstop.Cli.Verbs;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Telling.Depth;

/// <summary>An answer of leafstop depth, in words and as JSON.</summary>
internal abstract class DepthTelling(DepthCall asked)
{
    /// <summary>The verdict, one sentence.</summary>
    public abstract string Verdict { get; }

    /// <summary>The numbers behind it.</summary>
    public abstract IEnumerable<string> Numbers { get; }

    /// <summary>Rows of a table, the head first; empty without one.</summary>
    public abstract IReadOnlyList<string[]> Table { get; }

    /// <summary>What to mind; shown once.</summary>
    public virtual IEnumerable<string> Cautions => [];

    /// <summary>Formulas and sources, one a line.</summary>
    public abstract IEnumerable<string> Formulas { get; }

    /// <summary>How sure the answer is, and what it rests on that nobody said.</summary>
    public string HowSure
    {
        get
        {
            string assumed = Asked.Assumed.Count == 0 ? "" : $" Taken because nothing else was said: {Figures.List(Asked.Assumed.Select(a => a.Words))}.";
            return $"Worked out for a perfect thin lens in green light, distances from the {(Asked.IsFromMark ? "focus mark" : "lens")}; a real lens adds its own faults.{assumed}";
        }
    }

    /// <summary>What the answer was worked out from.</summary>
    public IEnumerable<string> Inputs
    {
        get
        {
            yield return $"Focal length {DepthCall.Mm(Asked.Lens.FocalLength)}; pupil ratio {Figures.Fixed(Asked.Lens.PupilRatio, 0)}; light of 550 nm.";
            if (Asked.Aperture is { } aperture)
                yield return MarkReading(aperture);
            if (Asked.Blur.Print is { } print)
            {
                ViewingCondition viewing = print.Viewing;
                yield return $"Finest detail on the print: {viewing.Distance.ToDisplay()} · 2 tan({viewing.Acuity.ToDisplay()} / 2) = {viewing.FinestDetail.ToDisplay()}.";
                yield return $"Enlargement: {viewing.PrintWidth.ToDisplay()} over {DepthCall.Mm(print.Format.Width)}"
                    + $"{(print.Crop < 1 ? $" · {Share.Of(print.Crop).ToDisplay()}" : "")} = {Figures.Significant(viewing.Enlargement(print.Format, print.Crop))}.";
                yield return $"Circle of confusion: their quotient, {Asked.Blur.Circle.ToDisplay()}. [COC]";
            }
            else
            {
                yield return $"Circle of confusion: {Asked.Blur.Circle.ToDisplay()}, as given.";
            }
        }
    }

    /// <summary>What was asked.</summary>
    protected DepthCall Asked => asked;

    /// <summary>Where sharpness is judged, at the end of a sentence.</summary>
    protected string Judged => Asked.Blur.Print is { Viewing: { } viewing }
        ? $"on a {viewing.PrintWidth.ToDisplay()} print seen from {viewing.Distance.ToDisplay()}"
        : $"for a blur of {Asked.Blur.Circle.ToDisplay()} on the sensor";

    /// <summary>Where blurs are told: "on the print" or "on the sensor".</summary>
    protected string Place => Asked.Blur.Print is null ? "on the sensor" : "on the print";

    /// <summary>Writes the answer as one JSON object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("verdict", Verdict);
        json.WriteNumber("focalMm", Asked.Lens.FocalLength.Millimetres);
        json.WriteString("measuredFrom", Asked.IsFromMark ? "mark" : "lens");
        WriteAnswer(json);
        json.WriteNumber("circleOfConfusionMm", Asked.Blur.Circle.Millimetres);
        WritePrint(json);
        json.WriteNumber("wavelengthNm", Diffraction.GreenLight.Millimetres * 1e6);
        if (Asked.Aperture is not null)
        {
            json.WriteStartObject("apertureRead");
            json.WriteString("written", Asked.ApertureWritten);
            json.WriteString("as", IsMark(Asked.Aperture) ? "mark" : "literal");
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("apertureRead");
        }
        json.WriteStartArray("assumed");
        foreach ((string name, _) in Asked.Assumed)
            json.WriteStringValue(name);
        json.WriteEndArray();
        json.WriteString("how", "workedOut");
        json.WriteEndObject();
    }

    /// <summary>Writes what belongs to this kind of answer.</summary>
    protected abstract void WriteAnswer(Utf8JsonWriter json);

    /// <summary>A distance in millimetres, null for infinity.</summary>
    protected static void WriteDistance(Utf8JsonWriter json, string name, SubjectDistance distance)
    {
        if (distance.IsInfinite)
            json.WriteNull(name);
        else
            json.WriteNumber(name, distance.Millimetres);
    }

    /// <summary>A length on the print, null without one.</summary>
    protected void WriteOnPrint(Utf8JsonWriter json, string name, Length onSensor)
    {
        if (Asked.Blur.OnPrint(onSensor) is { } onPrint)
            json.WriteNumber(name, onPrint.Millimetres);
        else
            json.WriteNull(name);
    }

    /// <summary>A length on the sensor as it is told: on the print in hundredths of a millimetre, else on the sensor in thousandths.</summary>
    protected string Told(Length onSensor) => Asked.Blur.OnPrint(onSensor) is { } onPrint
        ? $"{Figures.Fixed(onPrint.Millimetres, 2)} mm"
        : $"{Figures.Fixed(onSensor.Millimetres, 3)} mm";

    /// <summary>"3.4 m" or "infinity".</summary>
    protected static string Told(SubjectDistance distance) => distance.ToDisplay();

    private bool IsMark(FNumber aperture) => Asked.Reading == NumberReading.Marks && Marks.FNumbers(DialStep.Thirds).LabelOf(aperture.Ratio) is not null;

    private string MarkReading(FNumber aperture)
    {
        string exact = Figures.Fixed(aperture.Ratio, 3);
        return IsMark(aperture)
            ? $"{aperture.ToDisplay()} is a mark and was read as the power it stands for, {exact}."
            : $"f/{exact} was taken literally{(Asked.Reading == NumberReading.Literal ? ", as asked" : ": it is no mark")}.";
    }

    private void WritePrint(Utf8JsonWriter json)
    {
        if (Asked.Blur.Print is not { } print)
        {
            json.WriteNull("print");
            return;
        }
        json.WriteStartObject("print");
        json.WriteNumber("widthMm", print.Viewing.PrintWidth.Millimetres);
        json.WriteNumber("distanceMm", print.Viewing.Distance.Millimetres);
        json.WriteNumber("acuityArcmin", print.Viewing.Acuity.Arcminutes);
        json.WriteNumber("finestDetailMm", print.Viewing.FinestDetail.Millimetres);
        json.WriteNumber("enlargement", print.Viewing.Enlargement(print.Format, print.Crop));
        json.WriteNumber("formatWidthMm", print.Format.Width.Millimetres);
        json.WriteNumber("formatHeightMm", print.Format.Height.Millimetres);
        json.WriteNumber("cropShare", print.Crop);
        json.WriteEndObject();
    }
}
