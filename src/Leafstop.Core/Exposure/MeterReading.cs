using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>An exposure that the meter calls right: what it saw is the light, through whatever filter was on.</summary>
/// <param name="Aperture">Aperture of the reading.</param>
/// <param name="Shutter">Shutter of the reading.</param>
/// <param name="Iso">ISO of the reading.</param>
public sealed record MeterReading(FNumber Aperture, ShutterTime Shutter, Iso Iso)
{
    /// <summary>The light as EV100. Source: EXP-02.</summary>
    public ExposureValue Light => ExposureValue.Of(Aperture, Shutter, Iso);

    /// <summary>Reads "f/8 1/30 ISO 400", its three parts in any order, with or without commas.</summary>
    /// <exception cref="FormatException">Not a meter reading; the message says why.</exception>
    public static MeterReading Parse(string text, NumberReading reading = NumberReading.Marks) =>
        TryParse(text, out MeterReading? value, out string why, reading) ? value! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out MeterReading? value, out string why, NumberReading reading = NumberReading.Marks)
    {
        const string Wanted = "write aperture, shutter and ISO such as \"f/8 1/30 ISO 400\"";
        value = null;
        FNumber? aperture = null;
        ShutterTime? shutter = null;
        Iso? iso = null;
        foreach (string part in Parts(text ?? ""))
        {
            if (part.StartsWith('f') || part.StartsWith('F'))
            {
                if (aperture is not null)
                    return Refuse($"'{text!.Trim()}' has two apertures: {Wanted}.", out why);
                if (!FNumber.TryParse(part, out aperture, out why, reading))
                    return false;
            }
            else if (part.StartsWith("iso", StringComparison.OrdinalIgnoreCase))
            {
                if (iso is not null)
                    return Refuse($"'{text!.Trim()}' has two ISOs: {Wanted}.", out why);
                if (!Iso.TryParse(part, out iso, out why, reading))
                    return false;
            }
            else
            {
                if (shutter is not null)
                    return Refuse($"'{text!.Trim()}' has more than one shutter time: {Wanted}.", out why);
                if (!ShutterTime.TryParse(part, out shutter, out why, reading))
                    return false;
            }
        }
        if (aperture is null || shutter is null || iso is null)
            return Refuse($"'{(text ?? "").Trim()}' is no whole meter reading: {Wanted}.", out why);
        value = new MeterReading(aperture, shutter, iso);
        why = "";
        return true;
    }

    /// <summary>"f/8 1/30 s ISO 400".</summary>
    public string ToDisplay() => $"{Aperture.ToDisplay()} {Shutter.ToDisplay()} ISO {Iso.ToDisplay()}";

    private static bool Refuse(string sentence, out string why)
    {
        why = sentence;
        return false;
    }

    // "ISO 400" and "0.3 s" are one part each.
    private static List<string> Parts(string text)
    {
        List<string> parts = [];
        foreach (string word in text.Split([' ', ',', ';', '\t', '\u00A0'], StringSplitOptions.RemoveEmptyEntries))
        {
            bool goesOn = parts.Count > 0
                && (parts[^1].Equals("iso", StringComparison.OrdinalIgnoreCase) || parts[^1] is "f/" or "F/" or "f" or "F"
                    || word is "s" or "sec" or "second" or "seconds" or "\"");
            if (goesOn)
                parts[^1] += word;
            else
                parts.Add(word);
        }
        return parts;
    }
}
