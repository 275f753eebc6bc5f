using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Report;

/// <summary>Gives the pictures of a bench their words and their order in the report.</summary>
public static class CropWords
{
    /// <summary>How all of them were made.</summary>
    internal const string HowMade =
        "The same places of your scene at every ISO, left-off levels too. The smallest square of the mosaic that holds every colour is one point, shown three times its size; no noise reduction, no sharpening. "
        + "Brightness is evened in linear light, and the stops it took stand under each. What falls below black shows as black.";

    /// <summary>Pictures as the report takes them.</summary>
    /// <param name="pictures">Pictures by subject, then by ISO.</param>
    public static IReadOnlyList<ReportPicture> Of(IReadOnlyList<BenchPicture> pictures)
    {
        ArgumentNullException.ThrowIfNull(pictures);
        return [.. pictures.Select(Of)];
    }

    private static ReportPicture Of(BenchPicture picture)
    {
        string caption = Caption(picture);
        return new ReportPicture(picture.Level.Iso, caption, picture.Png)
        {
            Row = Heading(picture.Subject),
            RowNote = Note(picture),
            Alt = $"{Seen(picture.Subject)} at {Figures.Name(picture.Level.Iso)}: {caption}",
            Side = picture.Side,
        };
    }

    private static string Heading(CropSubject subject) => subject switch
    {
        CropSubject.Dark => "The darkest calm place",
        CropSubject.MidTone => "A smooth mid tone",
        CropSubject.Texture => "The finest texture",
        _ => "Noise alone",
    };

    private static string Seen(CropSubject subject) => subject switch
    {
        CropSubject.Dark => "Dark place",
        CropSubject.MidTone => "Mid tone",
        CropSubject.Texture => "Texture",
        _ => "Difference of two frames",
    };

    private static string Note(BenchPicture picture) => picture.Subject switch
    {
        CropSubject.Dark => $"{Lift(picture.LiftStops)} so that you see into it. The grain here is mostly read noise.",
        CropSubject.MidTone => $"{Lift(picture.LiftStops)}. The grain here is mostly the light's own.",
        CropSubject.Texture => $"{Lift(picture.LiftStops)}. See from which ISO on the grain covers the detail.",
        _ => "Two frames of one ISO at the mid tone, one taken from the other: the scene is gone, noise is left, at equal contrast for all. "
            + "Grain from the sensor is as fine as the points. Where it runs together, the camera has smoothed it.",
    };

    private static string Lift(double stops) => Math.Abs(stops) < 0.05
        ? "As bright as shot"
        : $"{Figures.Fixed(Math.Abs(stops), 1)}{Figures.NoBreak}{Unit(stops)} {(stops > 0 ? "brighter" : "darker")} than shot";

    private static string Caption(BenchPicture picture)
    {
        string said = picture.Subject == CropSubject.Difference ? Agreement(picture.Level) : Evened(picture);
        if (picture.Level.Usable)
            return said;
        string remark = LevelWords.Remark(picture.Level, isAboveStep: false);
        return $"{said}; {remark}";
    }

    private static string Agreement(Level level) => level.NeighbourCorrelation is { } r && double.IsFinite(r)
        ? $"neighbours agree by {Figures.Fixed(r, 2)}"
        : "agreement of neighbours not known";

    private static string Evened(BenchPicture picture)
    {
        if (picture.IsMatched || picture.UnexplainedStops is null || picture.ClippedShare > 0.02)
        {
            string by = Math.Abs(picture.CorrectionStops) < 0.005
                ? "as it is"
                : $"{(picture.CorrectionStops > 0 ? "+" : "")}{Figures.Fixed(picture.CorrectionStops, 2)}{Figures.NoBreak}{Unit(picture.CorrectionStops)}";
            return picture.IsMatched ? by
                : picture.ClippedShare > 0.02 ? $"{by}, clipped here" : $"{by}, no light left to even by";
        }

        double off = picture.UnexplainedStops.Value;
        return $"not evened: {Figures.Fixed(Math.Abs(off), 1)}{Figures.NoBreak}{Unit(off)} {(off > 0 ? "darker" : "brighter")} than ISO and shutter explain";
    }

    private static string Unit(double stops) => Math.Abs(stops) > 1.02 ? "stops" : "stop";
}
