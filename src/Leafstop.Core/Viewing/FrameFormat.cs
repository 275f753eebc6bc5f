using Leafstop.Core.Quantities;
using Leafstop.Core.Text;

namespace Leafstop.Core.Viewing;

/// <summary>The part of the sensor that makes the picture, as the camera is held: turned upright, a 36 × 24 mm frame is 24 × 36 mm.</summary>
public sealed record FrameFormat
{
    private const string Wanted = "width and height such as 36x24mm or 23.5x15.6mm";

    /// <summary>The 36 × 24 mm frame that crop factors are counted from (common practice, no source).</summary>
    public static FrameFormat FullFrame { get; } = new(Length.FromMillimetres(36), Length.FromMillimetres(24));

    private FrameFormat(Length width, Length height) => (Width, Height) = (width, height);

    /// <summary>Width, along the width of the print.</summary>
    public Length Width { get; }

    /// <summary>Height.</summary>
    public Length Height { get; }

    /// <summary>Corner to corner.</summary>
    public Length Diagonal => Length.FromMillimetres(Math.Sqrt(Width.Millimetres * Width.Millimetres + Height.Millimetres * Height.Millimetres));

    /// <summary>Diagonal of a 36 × 24 mm frame over this one's: 1.53 for 23.5 × 15.6 mm, below 1 for larger frames.</summary>
    public double CropFactor => FullFrame.Diagonal.Millimetres / Diagonal.Millimetres;

    /// <summary>Takes width and height.</summary>
    /// <exception cref="ArgumentOutOfRangeException">One of them is zero.</exception>
    public static FrameFormat Of(Length width, Length height)
    {
        foreach (Length side in (ReadOnlySpan<Length>)[width, height])
        {
            if (side.Millimetres <= 0)
                throw new ArgumentOutOfRangeException(nameof(width), side.Millimetres, "The sides of a frame are above zero.");
        }
        return new FrameFormat(width, height);
    }

    /// <summary>Width and height in full, "36x24mm": reads back to the same value in any culture.</summary>
    public override string ToString() => $"{Written.RoundTrip(Width.Millimetres)}x{Written.RoundTrip(Height.Millimetres)}mm";

    /// <summary>To three figures, "23.5 × 15.6 mm".</summary>
    public string ToDisplay() => $"{Written.Short(Width.Millimetres)} × {Written.Short(Height.Millimetres)} mm";

    /// <summary>Reads "36x24mm", "23.5 × 15.6 mm", "36mm x 24mm".</summary>
    /// <exception cref="FormatException">Not a format; the message says why.</exception>
    public static FrameFormat Parse(string text) => TryParse(text, out FrameFormat? format, out string why) ? format! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out FrameFormat? format, out string why)
    {
        format = null;
        string trimmed = (text ?? "").Trim();
        string[] sides = trimmed.Split('x', 'X', '×');
        if (sides.Length != 2)
        {
            why = trimmed.Length == 0 ? $"A format is missing: write {Wanted}." : $"'{trimmed}' cannot be read: write {Wanted}.";
            return false;
        }
        if (!Length.TryParse(sides[1], out Length height, out why))
            return false;
        // A unit after the height alone stands for both.
        string unit = new([.. sides[1].Trim().Reverse().TakeWhile(c => char.IsLetter(c) || c is '"' or '\'').Reverse()]);
        bool hasOwnUnit = sides[0].Length > 0 && !char.IsAsciiDigit(sides[0].TrimEnd().LastOrDefault()) && !sides[0].TrimEnd().EndsWith('.');
        if (!Length.TryParse(hasOwnUnit ? sides[0] : sides[0] + unit, out Length width, out why))
            return false;
        if (width.Millimetres <= 0 || height.Millimetres <= 0)
        {
            why = $"'{trimmed}' has a side of zero: write {Wanted}.";
            return false;
        }
        format = new FrameFormat(width, height);
        return true;
    }
}
