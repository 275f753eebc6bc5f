using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Card;

/// <summary>Reads the text of a card. Words that are not known are left aside, so that a card of a later program with the same version can be read.</summary>
internal sealed class CardReading
{
    private const string Again = "Read the code again, all of it.";
    private const int LongestName = 80;
    private const double LeastIso = 1, MostIso = 1e7, LeastSideMm = 10, MostSideMm = 100_000;

    private readonly Dictionary<string, string> _rests = [];
    private readonly List<string> _levels = [], _steps = [];

    private CardReading(IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            string[] parts = line.Split(' ', 2);
            if (char.IsAsciiDigit(line[0]))
                _levels.Add(line);
            else if (parts[0] == CardWords.Step)
                _steps.Add(parts.Length > 1 ? parts[1] : "");
            else if (!_rests.TryAdd(parts[0], parts.Length > 1 ? parts[1] : ""))
                throw new FormatException($"This card cannot be read: '{parts[0]}' stands in it twice.");
        }
    }

    public static CardText Of(string? text)
    {
        string[] lines = [.. (text ?? "").TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim(' ', '\t')).Where(l => l.Length > 0)];
        if (lines.Length == 0)
            throw new FormatException("There is no text of a card here. " + Again);
        if (!lines[0].StartsWith(CardText.Heading + " ", StringComparison.Ordinal))
            throw new FormatException($"This is no text of a card: it does not begin with {CardText.Heading}.");
        if (!int.TryParse(lines[0][(CardText.Heading.Length + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out int version) || version < 1)
            throw new FormatException($"This card is damaged: its first line is '{lines[0]}' instead of '{CardText.Heading} {CardText.Version}'. {Again}");
        if (version > CardText.Version)
            throw new FormatException($"This card is of version {version}; this Leafstop reads up to {CardText.Version}. Use a newer one.");
        if (!lines[^1].StartsWith(CardWords.Check + " ", StringComparison.Ordinal))
            throw new FormatException($"This card is cut off: its last line, '{CardWords.Check}', is missing. {Again}");
        string stated = lines[^1][(CardWords.Check.Length + 1)..].Trim(), found = CardWriting.Check(string.Concat(lines[..^1].Select(l => l + "\n")));
        if (!stated.Equals(found, StringComparison.OrdinalIgnoreCase))
            throw new FormatException($"This card is damaged: its check says {stated}, and its text comes to {found}. {Again}");
        return new CardReading(lines[1..^1]).Card();
    }

    private CardText Card()
    {
        CameraIdentity camera = Camera();
        PrintCondition print = Print(CardWords.Print, Needed(CardWords.Print));
        (NoiseLimits? limits, LimitRange? clean, LimitRange? stretch, DateOnly? judged) = Limits(camera, print);
        string name = Needed(CardWords.Camera);
        return new CardText
        {
            Name = name.Length is > 0 and <= LongestName && !name.Any(OutsideText.IsHidden) ? name : throw Wrong(CardWords.Camera, name, $"is a name of 1 to {LongestName} visible characters"),
            Camera = camera,
            BaseIso = Marked(CardWords.Base, Needed(CardWords.Base)),
            MeasuredOn = Rest(CardWords.Measured) is { } day ? Day(CardWords.Measured, day) : null,
            Levels = [.. _levels.Select(Level).OrderBy(l => l.Iso)],
            Steps = [.. _steps.Select(Step)],
            Limits = limits,
            MeasuredTo = Rest(CardWords.MeasuredTo) is { } highest ? Marked(CardWords.MeasuredTo, highest) : null,
            JudgedOn = judged,
            CleanRange = clean,
            StretchRange = stretch,
            Print = print,
            MadeOn = Day(CardWords.Made, Needed(CardWords.Made)),
        };
    }

    private CameraIdentity Camera()
    {
        // A card of limits alone has no body, and then no levels either.
        if (Rest(CardWords.Pixels) is null && Rest(CardWords.Body) is null && _levels.Count == 0)
            return CardText.NoBody;
        string text = Needed(CardWords.Pixels);
        string[] parts = text.Split(' ');
        string[] sides = parts[0].Split('x');
        return parts.Length == 3 && sides.Length == 2 && Whole(sides[0], 1_000_000) is { } width && Whole(sides[1], 1_000_000) is { } height && Whole(parts[2], 32) is { } bits
            ? new CameraIdentity { Make = "", Model = Rest(CardWords.Body) ?? "", Width = width, Height = height, Mosaic = parts[1], Bits = bits }
            : throw Wrong(CardWords.Pixels, text, "is written such as 8256x5504 2x2 14: pixels, mosaic, bits");
    }

    private (NoiseLimits?, LimitRange?, LimitRange?, DateOnly?) Limits(CameraIdentity camera, PrintCondition print)
    {
        if (Rest(CardWords.Limits) is not { } text)
            return (null, null, null, null);
        string[] parts = text.Split(' ');
        LimitOrigin origin = Choice(CardWords.Limits, CardWords.Origins, parts[0]);
        (Iso? clean, LimitRange? cleanRange) = Limit(CardWords.Clean);
        (Iso? stretch, LimitRange? stretchRange) = Limit(CardWords.Stretch);
        if (clean is null && stretch is null)
            throw new FormatException($"This card cannot be read: it has '{CardWords.Limits}' and neither '{CardWords.Clean}' nor '{CardWords.Stretch}'.");
        if (clean is not null && stretch is not null && stretch < clean)
            throw new FormatException("This card cannot be read: its stretch limit lies below the clean one.");
        LimitTags tags = new(
            Rest(CardWords.Tag) ?? CardWriting.TagOf(camera), Rest(CardWords.LimitPrint) is { } own ? Print(CardWords.LimitPrint, own) : print,
            Choice(CardWords.Tone, CardWords.Tones, Needed(CardWords.Tone)), Choice(CardWords.Treatment, CardWords.Treatments, Needed(CardWords.Treatment)),
            Rest(CardWords.Lift) is { } lift ? LiftOf(lift) : null);
        return (NoiseLimits.Of(clean, stretch, tags, origin), cleanRange, stretchRange, parts.Length > 1 ? Day(CardWords.Limits, parts[1]) : null);
    }

    private static Stops LiftOf(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double stops) && stops is >= 0 and <= 10
        ? Stops.Of(stops)
        : throw Wrong(CardWords.Lift, text, "is a number of stops from 0 to 10, such as 2");

    private (Iso?, LimitRange?) Limit(string word)
    {
        if (Rest(word) is not { } text)
            return (null, null);
        Iso[] isos = [.. text.Split(' ').Select(part => Marked(word, part))];
        return isos.Length switch
        {
            1 => (isos[0], null),
            3 when isos[1] <= isos[2] => (isos[0], new LimitRange(isos[1], isos[2])),
            _ => throw Wrong(word, text, "is a limit, alone or with the ends of its interval, such as 800 640 1000"),
        };
    }

    private static CardLevel Level(string line)
    {
        double?[] numbers = [.. line.Split(' ').Select(Positive)];
        return numbers is [{ } iso, { } gain, { } noise, { } saturation]
            ? new CardLevel(Iso.FromSpeed(iso), new NoiseModel(gain, noise, saturation))
            : throw new FormatException($"This card cannot be read: '{line}' is no level. A level is ISO, gain, read noise and saturation, such as 100 3.052 3.6 50000.");
    }

    private static CardStep Step(string text) => text.Split(' ').Select(Positive).ToArray() is [{ } below, { } above] && below < above
        ? new CardStep(Iso.FromSpeed(below), Iso.FromSpeed(above))
        : throw Wrong(CardWords.Step, text, "is the last ISO before and the first after, such as 400 500");

    // The range that a call of the program has, too: a damaged or invented number with a valid check is no card.
    private static PrintCondition Print(string word, string text) =>
        text.Split(' ').Select(Positive).ToArray() is [{ } width and >= LeastSideMm and <= MostSideMm, { } distance and >= LeastSideMm and <= MostSideMm]
            ? new PrintCondition(width, distance)
            : throw Wrong(word, text, "is the width and the distance of a print in millimetres from 10 to 100000, such as 600 600");

    private static Iso Marked(string word, string text) =>
        Positive(text) is { } speed and >= LeastIso and <= MostIso ? Iso.FromMarking(speed) : throw Wrong(word, text, "is an ISO from 1 to 10000000, such as 800");

    private static DateOnly Day(string word, string text)
    {
        return DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
            ? day
            : throw Wrong(word, text, "is a day such as 2026-03-01");
    }

    private static T Choice<T>(string word, ImmutableArray<(T Value, string Word)> words, string text) where T : struct, Enum
    {
        foreach ((T value, string known) in words)
        {
            if (known == text)
                return value;
        }
        throw Wrong(word, text, $"is one of {string.Join(", ", words.Select(w => w.Word))}");
    }

    private static double? Positive(string text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) && number > 0 ? number : null;

    private static int? Whole(string text, int most) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= 1 && number <= most ? number : null;

    private string? Rest(string word) => _rests.GetValueOrDefault(word);

    private string Needed(string word) => Rest(word) ?? throw new FormatException($"This card cannot be read: '{word}' is missing.");

    private static FormatException Wrong(string word, string text, string rule) => new($"This card cannot be read: '{word}' {rule}, not '{text}'.");
}
