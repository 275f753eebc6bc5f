using System.CommandLine;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.CommandLine;

/// <summary>Values of options as quantities; what cannot be read is refused with the option's name before the reason.</summary>
internal static class Asked
{
    private delegate bool Reader<T>(string text, out T value, out string why);

    /// <summary>A length; null when the option was not given.</summary>
    public static Length? Length(ParseResult call, Option<string?> option) =>
        call.GetValue(option) is { } text ? Read(option, text, (string t, out Length v, out string w) => Core.Quantities.Length.TryParse(t, out v, out w)) : null;

    /// <summary>A distance, infinity included; null when the option was not given.</summary>
    public static SubjectDistance? Distance(ParseResult call, Option<string?> option) =>
        call.GetValue(option) is { } text ? Distance(option, text) : null;

    /// <summary>A distance, infinity included.</summary>
    public static SubjectDistance Distance(Option option, string text) =>
        Read(option, text, (string t, out SubjectDistance? v, out string w) => SubjectDistance.TryParse(t, out v, out w))!;

    /// <summary>A format; null when the option was not given.</summary>
    public static FrameFormat? Format(ParseResult call, Option<string?> option) =>
        call.GetValue(option) is { } text ? Read(option, text, (string t, out FrameFormat? v, out string w) => FrameFormat.TryParse(t, out v, out w)) : null;

    /// <summary>A share above zero; null when the option was not given.</summary>
    public static Share? Share(ParseResult call, Option<string?> option) =>
        call.GetValue(option) is { } text ? Read(option, text, (string t, out Share v, out string w) => Core.Quantities.Share.TryParse(t, out v, out w)) : null;

    /// <summary>An angle; a bare number is minutes of arc. Null when the option was not given.</summary>
    public static Angle? Arcminutes(ParseResult call, Option<string?> option)
    {
        if (call.GetValue(option) is not { } text)
            return null;
        string withUnit = text.Trim() is [.., var last] && (char.IsAsciiDigit(last) || last == '.') ? text.Trim() + "'" : text;
        return Read(option, withUnit, (string t, out Angle v, out string w) => Angle.TryParse(t, out v, out w));
    }

    /// <summary>An f-number, read by mark unless taken literally; null when the option was not given.</summary>
    public static FNumber? Aperture(ParseResult call, Option<string?> option, NumberReading reading) =>
        call.GetValue(option) is { } text ? Read(option, text, (string t, out FNumber? v, out string w) => FNumber.TryParse(t, out v, out w, reading)) : null;

    private static T Read<T>(Option option, string text, Reader<T> reader) =>
        reader(text, out T value, out string why) ? value : throw Refusal.WrongCall($"{option.Name}: {why}");
}
