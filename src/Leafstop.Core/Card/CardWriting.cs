using System.Globalization;
using System.Text;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;

namespace Leafstop.Core.Card;

/// <summary>Writes the text of a card.</summary>
internal static class CardWriting
{
    /// <summary>Figures of gain, read noise and saturation: an error of at most 0.05 %, a tenth of what they are measured to.</summary>
    private const int LevelFigures = 4;

    /// <summary>Figures of a limit that is no mark: less than a millionth of a stop off.</summary>
    private const int LimitFigures = 7;

    public static string Of(CardText card)
    {
        StringBuilder text = new();
        Line(CardText.Heading, CardText.Version.ToString(CultureInfo.InvariantCulture));
        Line(CardWords.Camera, OneLine(card.Name));
        if (Model(card.Camera) is { Length: > 0 } model)
            Line(CardWords.Body, model);
        // A card of limits alone has no body.
        if (card.Camera.Width > 0)
            Line(CardWords.Pixels, string.Create(CultureInfo.InvariantCulture, $"{card.Camera.Width}x{card.Camera.Height} {OneLine(card.Camera.Mosaic)} {card.Camera.Bits}"));
        Line(CardWords.Base, Marked(card.BaseIso));
        if (card.MeasuredOn is { } measured)
            Line(CardWords.Measured, Day(measured));
        foreach (CardStep step in card.Steps)
            Line(CardWords.Step, $"{step.Below} {step.Above}");
        foreach (CardLevel level in card.Levels)
            Line(level.Iso.ToString(), $"{Figures(level.Model.GainElectronsPerDn, LevelFigures)} {Figures(level.Model.ReadNoiseElectrons, LevelFigures)} {Figures(level.Model.SaturationElectrons, LevelFigures)}");
        if (card.Limits is { } limits)
        {
            Line(CardWords.Limits, CardWords.WordOf(CardWords.Origins, limits.Origin) + (card.JudgedOn is { } judged ? $" {Day(judged)}" : ""));
            Limit(CardWords.Clean, limits.Clean, card.CleanRange);
            Limit(CardWords.Stretch, limits.Stretch, card.StretchRange);
            // The tag is that of the body above, unless it says otherwise.
            if (OneLine(limits.Tags.Body) != TagOf(card.Camera))
                Line(CardWords.Tag, OneLine(limits.Tags.Body));
            Line(CardWords.Tone, CardWords.WordOf(CardWords.Tones, limits.Tags.Tone));
            Line(CardWords.Treatment, CardWords.WordOf(CardWords.Treatments, limits.Tags.Treatment));
            if (limits.Tags.Lift is { } lift)
                Line(CardWords.Lift, lift.ToString());
            if (limits.Tags.Print != card.Print)
                Line(CardWords.LimitPrint, Print(limits.Tags.Print));
        }
        if (card.MeasuredTo is { } highest)
            Line(CardWords.MeasuredTo, Marked(highest));
        Line(CardWords.Print, Print(card.Print));
        Line(CardWords.Made, Day(card.MadeOn));
        return $"{text}{CardWords.Check} {Check(text.ToString())}";

        void Line(string word, string rest) => text.Append(word).Append(rest.Length > 0 ? " " : "").Append(rest).Append('\n');

        void Limit(string word, Iso? limit, LimitRange? range)
        {
            if (limit is not null)
                Line(word, Marked(limit) + (range is null ? "" : $" {Marked(range.Low)} {Marked(range.High)}"));
        }
    }

    /// <summary>The check of everything before its own line, line feeds included, in eight hexadecimal digits.</summary>
    public static string Check(string text) => Crc32.Of(Encoding.UTF8.GetBytes(text)).ToString("x8", CultureInfo.InvariantCulture);

    /// <summary>The body tag that a reader of the card works out from its body and pixels.</summary>
    public static string TagOf(CameraIdentity camera) => (camera with { Make = "", Model = Model(camera) }).ToWords();

    private static string Model(CameraIdentity camera) => OneLine(camera.FullModel);

    private static string OneLine(string text) =>
        string.Join(' ', string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Print(PrintCondition print) => $"{Written.RoundTrip(print.WidthMm)} {Written.RoundTrip(print.ViewingDistanceMm)}";

    /// <summary>A mark by its label; another value to <see cref="LimitFigures"/>, and in full where that would look like a mark.</summary>
    private static string Marked(Iso iso)
    {
        MarkSeries marks = Marks.Isos(DialStep.Thirds);
        if (marks.LabelOf(iso.Speed) is { } label)
            return Written.RoundTrip(label);
        string rounded = Figures(iso.Speed, LimitFigures);
        return marks.LabelOf(double.Parse(rounded, CultureInfo.InvariantCulture)) is null ? rounded : Written.RoundTrip(iso.Speed);
    }

    private static string Figures(double value, int figures) =>
        Written.RoundTrip(double.Parse(value.ToString($"E{figures - 1}", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture));
}
