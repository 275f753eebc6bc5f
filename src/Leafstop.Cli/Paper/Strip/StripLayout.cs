namespace Leafstop.Cli.Paper.Strip;

/// <summary>Where the crops of a test strip lie on one sheet: entries in one or two columns, each a letter and one crop a subject.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Entries">How many letters there are.</param>
/// <param name="Subjects">Crops of an entry.</param>
/// <param name="Columns">1 or 2.</param>
/// <param name="RoomMm">The largest crop side that fits, millimetres.</param>
internal sealed record StripLayout(PaperSheet Sheet, int Entries, int Subjects, int Columns, double RoomMm)
{
    /// <summary>Room that each crop has at least, so that the words over it stand side by side; larger crops than the other gain nothing. Millimetres.</summary>
    public const double LeastSideMm = 14, MostSideMm = 40;

    /// <summary>Smaller crops show too little to judge. Millimetres: an eighth of a print of 8 cm.</summary>
    public const double LeastShownMm = 10;

    /// <summary>Above the first crop: title, what to do, the measuring line and the heads of the columns. Below the last: the foot.</summary>
    private const double HeadMm = 72, FootMm = 10;

    private const double LetterMm = 9, GapMm = 2, ColumnGapMm = 8, RowGapMm = 3.5;

    private int Rows => (Entries + Columns - 1) / Columns;

    private double ColumnMm => (Sheet.InnerWidthMm - (Columns - 1) * ColumnGapMm) / Columns;

    /// <summary>The arrangement that gives the largest crops.</summary>
    /// <returns>Null when the crops would be smaller than <see cref="LeastSideMm"/>.</returns>
    public static StripLayout? For(PaperSheet sheet, int entries, int subjects)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(entries, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(subjects, 1);
        StripLayout best = ((StripLayout[])[Fitted(1), Fitted(2)]).MaxBy(l => l.RoomMm)!;
        return best.RoomMm >= LeastSideMm ? best : null;

        StripLayout Fitted(int columns)
        {
            StripLayout layout = new(sheet, entries, subjects, columns, 0);
            double wide = (layout.ColumnMm - LetterMm - (subjects - 1) * GapMm) / subjects, high = (sheet.InnerHeightMm - HeadMm - FootMm) / layout.Rows - RowGapMm;
            return layout with { RoomMm = Math.Min(MostSideMm, Math.Min(wide, high)) };
        }
    }

    /// <summary>Left edge of the letter of an entry, and the top of its crops, millimetres. Entries run down the first column, then the second.</summary>
    /// <param name="entry">0 for the first.</param>
    /// <param name="sideMm">Side of a crop, at most <see cref="RoomMm"/>.</param>
    public (double LeftMm, double TopMm) Place(int entry, double sideMm) =>
        (PaperSheet.MarginMm + entry / Rows * (ColumnMm + ColumnGapMm), PaperSheet.MarginMm + HeadMm + entry % Rows * (sideMm + RowGapMm));

    /// <summary>Left edge of a crop, from the left edge of its entry, millimetres. Small ones stand as far apart as the words over them need.</summary>
    /// <param name="subject">0 for the first.</param>
    /// <param name="sideMm">Side of a crop.</param>
    public static double CropMm(int subject, double sideMm) => LetterMm + subject * (Math.Max(sideMm, LeastSideMm) + GapMm);
}
