using System.Collections;
using System.Text;
using QRCoder;

namespace Leafstop.Cli.Paper.Card;

/// <summary>The code of a card: its text as a QR code (ISO/IEC 18004).</summary>
/// <param name="rows">Dark modules, row by row, without the quiet zone.</param>
internal sealed class CardCode(IReadOnlyList<BitArray> rows)
{
    /// <summary>Modules of white that are left free on every side, by the standard.</summary>
    public const int QuietModules = 4;

    /// <summary>Finer modules are not taken for the sake of more correction: four dots of a printer at 300 to the inch.</summary>
    public const double FineModuleMm = 4 * 25.4 / 300;

    /// <summary>Modules across.</summary>
    public int Side => rows.Count;

    /// <summary>The code with the most correction whose modules are not finer than <see cref="FineModuleMm"/> on a side of that length; else that with the largest modules.</summary>
    /// <param name="text">The text.</param>
    /// <param name="sideMm">Side of the code without the quiet zone.</param>
    public static CardCode Of(string text, double sideMm)
    {
        foreach (QRCodeGenerator.ECCLevel level in (QRCodeGenerator.ECCLevel[])[QRCodeGenerator.ECCLevel.Q, QRCodeGenerator.ECCLevel.M])
        {
            CardCode code = At(text, level);
            if (sideMm / code.Side >= FineModuleMm)
                return code;
        }
        return At(text, QRCodeGenerator.ECCLevel.L);
    }

    /// <summary>Draws it, its modules as rectangles.</summary>
    public void Draw(PaperPen pen, double leftMm, double topMm, double sideMm)
    {
        double module = sideMm / Side;
        for (int y = 0; y < Side; y++)
        {
            for (int x = 0; x < Side; x++)
            {
                int from = x;
                while (x < Side && rows[y][x])
                    x++;
                if (x > from)
                    pen.Block(leftMm + from * module, topMm + y * module, (x - from) * module, module);
            }
        }
    }

    private static CardCode At(string text, QRCodeGenerator.ECCLevel level)
    {
        // Letters outside ASCII are announced as UTF-8; without them no announcement is needed and every reader agrees.
        bool isPlain = Ascii.IsValid(text);
        using QRCodeData data = QRCodeGenerator.GenerateQrCode(text, level, forceUtf8: !isPlain, utf8BOM: false, isPlain ? QRCodeGenerator.EciMode.Default : QRCodeGenerator.EciMode.Utf8);
        List<BitArray> all = data.ModuleMatrix;
        // The library adds the quiet zone; here the layout keeps it.
        return new CardCode([.. all.Skip(QuietModules).Take(all.Count - 2 * QuietModules).Select(row => new BitArray([.. row.Cast<bool>().Skip(QuietModules).Take(all.Count - 2 * QuietModules)]))]);
    }
}
