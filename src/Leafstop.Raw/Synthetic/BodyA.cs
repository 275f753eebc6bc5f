namespace Leafstop.Raw.Synthetic;

/// <summary>Body A: the invented camera whose truth is known. A worked model, not a measurement of any camera.</summary>
/// <remarks>An ISO is given as it is dialled: a third-stop mark means the exact power (500 is 100 · 2^(7/3)).</remarks>
public static class BodyA
{
    /// <summary>Electrons at which the raw value clips at ISO 100.</summary>
    public const double FullWellElectrons = 50_000;

    /// <summary>Black level, DN; deliberately not a whole number.</summary>
    public const double BlackDn = 511.6;

    /// <summary>The highest code that a sample takes, DN.</summary>
    public const int ClipDn = 15_872;

    /// <summary>What the WhiteLevel tag says, DN: the end of the 14-bit scale, which no sample reaches.</summary>
    public const int WhiteTagDn = 16_383;

    /// <summary>Bits of a code.</summary>
    public const int Bits = 14;

    /// <summary>Metered mid-grey as a share of the clip level, green planes.</summary>
    public const double MidGreyShare = 0.128;

    /// <summary>Maker, as written in the files. It begins like no maker that a raw library knows and would rename.</summary>
    public const string Make = "Invented";

    /// <summary>Model, as written in the files.</summary>
    public const string Model = "Body A";

    /// <summary>Body number, as written in the files.</summary>
    public const string Serial = "A-0001";

    // Read noise by (thirds of a stop above ISO 100, electrons), below and from the gain step.
    private static readonly (double Thirds, double Electrons)[] Below = [(0, 3.6), (3, 3.3), (6, 3.1)];
    private static readonly (double Thirds, double Electrons)[] Above =
        [(7, 1.6), (8, 1.55), (9, 1.5), (12, 1.4), (15, 1.3), (18, 1.25), (21, 1.25), (24, 1.25)];

    /// <summary>The ISO mark of the gain step: from here on the upper rows of the read-noise table hold.</summary>
    public const double GainStepIso = 500;

    /// <summary>The exact power that an ISO mark means: the nearest third of a stop when within 2 %, otherwise the number itself.</summary>
    public static double ExactIso(double iso)
    {
        double power = 100 * Math.Pow(2, Math.Round(Thirds(iso)) / 3);
        return Math.Abs(iso / power - 1) < 0.02 ? power : iso;
    }

    /// <summary>Electrons for one raw step.</summary>
    public static double GainElectronsPerDn(double iso) => SaturationElectrons(iso) / (ClipDn - BlackDn);

    /// <summary>Electrons at which the raw value clips: 50 000 at ISO 100, falling as 100/ISO.</summary>
    public static double SaturationElectrons(double iso) => FullWellElectrons * 100 / ExactIso(iso);

    /// <summary>Total temporal noise without light, quantisation included, electrons.</summary>
    /// <remarks>Between the rows of the table linear in log2 ISO; never across the step: below it the line from 200 to 400 goes on.</remarks>
    public static double ReadNoiseElectrons(double iso)
    {
        double thirds = Thirds(ExactIso(iso));
        var rows = thirds < 7 - 1e-6 ? Below : Above;
        int i = 1;
        while (i < rows.Length - 1 && thirds > rows[i].Thirds)
            i++;
        var (x0, y0) = rows[i - 1];
        var (x1, y1) = rows[i];
        return y0 + (y1 - y0) * (thirds - x0) / (x1 - x0);
    }

    /// <summary>The Gaussian part of the read noise before quantisation, electrons: √(r² − g²/12). Source: SEN-10 (quantisation variance).</summary>
    public static double AnalogueNoiseElectrons(double iso)
    {
        double g = GainElectronsPerDn(iso), r = ReadNoiseElectrons(iso);
        return Math.Sqrt(r * r - g * g / 12);
    }

    private static double Thirds(double iso) => 3 * Math.Log2(iso / 100);
}
