using Leafstop.Raw.Crops;
using Leafstop.Raw.Jpegs;

namespace Leafstop.Report;

/// <summary>Words for JPEGs side by side: what to look at, and that nothing is measured.</summary>
internal static class JpegWords
{
    /// <summary>What they are and are not.</summary>
    public const string HowMade =
        "The same places at each ISO, one picture an ISO, as the camera made it: a pixel is shown three times its size, and nothing is evened, smoothed or sharpened here. "
        + "There are no figures, because none would be true: the camera has smoothed and toned every ISO in its own way, so that a smoother patch may only have lost more. No limit comes of these.";

    /// <summary>Pictures as the report takes them.</summary>
    public static IReadOnlyList<ReportPicture> Of(JpegComparison jpegs)
    {
        FrameNames names = new(jpegs.Pictures.Select(p => p.File));
        return
        [
            .. jpegs.Pictures.Select(p => new ReportPicture(p.Iso, names.OnOneLine(p.File), p.Png)
            {
                Row = Heading(p.Subject),
                RowNote = Note(p.Subject),
                Alt = $"{Heading(p.Subject)} at {Figures.Name(p.Iso)}, JPEG {names.OnOneLine(p.File)}",
                Side = p.Side,
            }),
        ];
    }

    /// <summary>A line for each file that is not shown.</summary>
    public static IReadOnlyList<string> LeftOut(JpegComparison jpegs)
    {
        FrameNames names = new(jpegs.LeftOut.Select(f => f.File));
        return [.. jpegs.LeftOut.GroupBy(f => f.Why, StringComparer.Ordinal).Select(g => $"{names.Several([.. g.Select(f => f.File)])}: {OneLine.Of(g.Key)}")];
    }

    private static string Heading(CropSubject subject) => subject switch
    {
        CropSubject.Dark => "A dark place",
        CropSubject.MidTone => "A smooth mid tone",
        _ => "The finest texture",
    };

    private static string Note(CropSubject subject) => subject switch
    {
        CropSubject.Dark => "Blotches and stray colours are noise that the camera could not smooth away.",
        CropSubject.MidTone => "Smooth here is clean or smoothed: only the texture below tells which.",
        _ => "Where the detail has gone with the grain, the camera has smoothed both.",
    };
}
