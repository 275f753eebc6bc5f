namespace Leafstop.Core.Colour;

/// <summary>How different two colours look, by the CIEDE2000 formula with all three weights at 1.</summary>
/// <remarks>Source: Sharma, Wu and Dalal 2005, Color Res. Appl. 30(1), whose Table 1 is in the tests (rows DE). Where the hues lie exactly opposite the mean hue
/// jumps, and the last bit decides (4.8045 or 4.7461 for one published pair).</remarks>
public static class Ciede2000
{
    private const double Pow25To7 = 6103515625; // 25 to the seventh

    /// <summary>The difference; about 1 is just seen side by side on large even patches (common practice, no source).</summary>
    public static double Difference(Lab first, Lab second)
    {
        double meanChroma = (Math.Sqrt(first.A * first.A + first.B * first.B) + Math.Sqrt(second.A * second.A + second.B * second.B)) / 2;
        double stretch = 1.5 - 0.5 * ChromaShare(meanChroma); // 1 + G: greys get more a*
        double a1 = stretch * first.A, a2 = stretch * second.A;
        double c1 = Math.Sqrt(a1 * a1 + first.B * first.B), c2 = Math.Sqrt(a2 * a2 + second.B * second.B);
        double h1 = Hue(a1, first.B), h2 = Hue(a2, second.B);
        bool hasHues = c1 * c2 != 0;

        double hueStep = !hasHues ? 0 : h2 - h1 > 180 ? h2 - h1 - 360 : h2 - h1 < -180 ? h2 - h1 + 360 : h2 - h1;
        double deltaL = second.L - first.L, deltaC = c2 - c1, deltaH = 2 * Math.Sqrt(c1 * c2) * Sin(hueStep / 2);

        double lightness = (first.L + second.L) / 2, chroma = (c1 + c2) / 2;
        double hue = !hasHues ? h1 + h2 : Math.Abs(h1 - h2) <= 180 ? (h1 + h2) / 2 : h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
        double t = 1 - 0.17 * Cos(hue - 30) + 0.24 * Cos(2 * hue) + 0.32 * Cos(3 * hue + 6) - 0.20 * Cos(4 * hue - 63);
        double fromMiddle = (lightness - 50) * (lightness - 50);
        double weightL = 1 + 0.015 * fromMiddle / Math.Sqrt(20 + fromMiddle);
        double weightC = 1 + 0.045 * chroma, weightH = 1 + 0.015 * chroma * t;
        double turn = 30 * Math.Exp(-Math.Pow((hue - 275) / 25, 2));
        double rotation = -2 * ChromaShare(chroma) * Sin(2 * turn);

        double l = deltaL / weightL, c = deltaC / weightC, h = deltaH / weightH;
        return Math.Sqrt(Math.Max(0, l * l + c * c + h * h + rotation * c * h));
    }

    private static double ChromaShare(double chroma)
    {
        double seventh = Math.Pow(chroma, 7);
        return Math.Sqrt(seventh / (seventh + Pow25To7));
    }

    private static double Hue(double a, double b)
    {
        if (a == 0 && b == 0) return 0;
        double degrees = Math.Atan2(b, a) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180);

    private static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180);
}
