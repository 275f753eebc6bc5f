namespace Leafstop.Core.Viewing;

/// <summary>Row and column offsets as they are seen: standard deviation of L* that they make after the eye has blurred them.</summary>
/// <remarks>Not to be added to the grain nor read on its scale: the eye follows a stripe across the print and sees it long before a grain of equal size, by how much no row of ours
/// tells. Stripes keep their length on every print, so they fall with the square root of the pixels per degree where grain falls with the pixels per degree.</remarks>
/// <param name="Rows">From rows that are lighter or darker as a whole.</param>
/// <param name="Columns">From columns.</param>
/// <param name="RowsFloor">What grain alone can pretend to in this patch (three standard errors); rows below it are not told from none.</param>
/// <param name="ColumnsFloor">The same for columns.</param>
public sealed record VisibleBanding(double Rows, double Columns, double RowsFloor, double ColumnsFloor)
{
    /// <summary>Rows or columns stand out of the grain of this patch.</summary>
    public bool IsFound => Rows > RowsFloor || Columns > ColumnsFloor;
}
