using CsCheck;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class FrameFormatTests
{
    // Published: DOF-22 (ZEISSF, value computed): diagonal of 36 × 24 mm and the discs that circulate as shares of it, tolerance 1e-6. None of them is a default here.
    [Fact]
    public void The_diagonal_of_a_full_frame()
    {
        double diagonal = FrameFormat.FullFrame.Diagonal.Millimetres;
        Assert.Equal(43.26662, diagonal, 5e-6);
        Assert.Equal(0.0288444, diagonal / 1500, 1e-6);
        Assert.Equal(0.0250096, diagonal / 1730, 1e-6);
        Assert.Equal(1442, diagonal / 0.030, 0.5);
    }

    [Theory]
    [InlineData("36x24mm", 36, 24)]
    [InlineData("36 x 24 mm", 36, 24)]
    [InlineData("23.5×15.6mm", 23.5, 15.6)]
    [InlineData("23.5mm X 15.6mm", 23.5, 15.6)]
    [InlineData("3.6x2.4cm", 36, 24)]
    [InlineData("4x5in", 101.6, 127)]
    [InlineData("24x36mm", 24, 36)]
    public void Formats_are_read_as_people_write_them(string text, double width, double height)
    {
        FrameFormat format = FrameFormat.Parse(text);
        Assert.Equal(width, format.Width.Millimetres, 1e-9);
        Assert.Equal(height, format.Height.Millimetres, 1e-9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("36mm")]
    [InlineData("36x24")]
    [InlineData("0x24mm")]
    [InlineData("36x0mm")]
    [InlineData("-36x24mm")]
    [InlineData("NaNx24mm")]
    [InlineData("36x24x10mm")]
    [InlineData("xmm")]
    [InlineData("x")]
    [InlineData("full")]
    public void What_is_no_format_is_refused_with_a_sentence(string text)
    {
        Assert.False(FrameFormat.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => FrameFormat.Parse(text));
    }

    // Derived: what is printed in full reads back to the same.
    [Fact]
    public void Printing_and_reading_returns_the_same_format() =>
        Gen.Select(Gen.Double[0.1, 500], Gen.Double[0.1, 500]).Sample((w, h) =>
        {
            var format = FrameFormat.Of(Length.FromMillimetres(w), Length.FromMillimetres(h));
            return FrameFormat.Parse(format.ToString()) == format;
        });

    // Derived: by the diagonals; 1.5 and 1.53 are what the trade calls these frames (common practice, no source).
    [Fact]
    public void Crop_factors_go_by_the_diagonal()
    {
        Assert.Equal(1, FrameFormat.FullFrame.CropFactor, 1e-12);
        Assert.Equal(1.5, FrameFormat.Parse("24x16mm").CropFactor, 1e-12);
        Assert.Equal(1.534, FrameFormat.Parse("23.5x15.6mm").CropFactor, 5e-4);
        Assert.True(FrameFormat.Parse("44x33mm").CropFactor < 1);
        Assert.Equal("23.5 × 15.6 mm", FrameFormat.Parse("23.5x15.6mm").ToDisplay());
    }
}
