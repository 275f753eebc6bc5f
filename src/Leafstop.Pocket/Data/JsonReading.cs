using System.Globalization;
using System.Text;

namespace Leafstop.Pocket.Data;

/// <summary>Reads JSON (RFC 8259) into dictionaries, lists, text, numbers and truths; null stays null.</summary>
/// <remarks>The platform's own reader takes a quarter of a second of the page's start and a part of its size: a browser interprets it line by line.</remarks>
internal sealed class JsonReading
{
    private const int Deepest = 20;

    private readonly string _text;
    private int _at;

    private JsonReading(string text) => _text = text;

    /// <summary>The object that the text is; null when it is no JSON object.</summary>
    public static Dictionary<string, object?>? Object(string text)
    {
        JsonReading reading = new(text);
        try
        {
            object? value = reading.Value(0);
            reading.Space();
            return reading._at == text.Length ? value as Dictionary<string, object?> : null;
        }
        catch (FormatException)
        {
            return null;
        }
    }

    private object? Value(int depth)
    {
        if (depth > Deepest)
            throw Damaged();
        Space();
        switch (Now)
        {
            case '{':
                return Members(depth);
            case '[':
                return Items(depth);
            case '"':
                return Text();
            case 't':
                Word("true");
                return true;
            case 'f':
                Word("false");
                return false;
            case 'n':
                Word("null");
                return null;
            default:
                return Number();
        }
    }

    private Dictionary<string, object?> Members(int depth)
    {
        Dictionary<string, object?> members = [];
        _at++;
        Space();
        if (Passed('}'))
            return members;
        do
        {
            Space();
            string name = Now == '"' ? Text() : throw Damaged();
            Space();
            if (!Passed(':'))
                throw Damaged();
            members[name] = Value(depth + 1);
            Space();
        }
        while (Passed(','));
        return Passed('}') ? members : throw Damaged();
    }

    private List<object?> Items(int depth)
    {
        List<object?> items = [];
        _at++;
        Space();
        if (Passed(']'))
            return items;
        do
        {
            items.Add(Value(depth + 1));
            Space();
        }
        while (Passed(','));
        return Passed(']') ? items : throw Damaged();
    }

    private string Text()
    {
        _at++;
        StringBuilder text = new();
        while (true)
        {
            char c = Now;
            if (c < ' ')
                throw Damaged();
            _at++;
            if (c == '"')
                return text.ToString();
            text.Append(c == '\\' ? Escaped() : c);
        }
    }

    private char Escaped()
    {
        char c = Now;
        _at++;
        if (c != 'u')
            return c switch { '"' or '\\' or '/' => c, 'b' => '\b', 'f' => '\f', 'n' => '\n', 'r' => '\r', 't' => '\t', _ => throw Damaged() };
        if (_at + 4 > _text.Length || !ushort.TryParse(_text.AsSpan(_at, 4), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out ushort code))
            throw Damaged();
        _at += 4;
        return (char)code;
    }

    private double Number()
    {
        int from = _at;
        while (_at < _text.Length && _text[_at] is (>= '0' and <= '9') or '-' or '+' or '.' or 'e' or 'E')
            _at++;
        const NumberStyles Written = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return double.TryParse(_text.AsSpan(from, _at - from), Written, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number : throw Damaged();
    }

    private char Now => _at < _text.Length ? _text[_at] : throw Damaged();

    private bool Passed(char c)
    {
        if (Now != c)
            return false;
        _at++;
        return true;
    }

    private void Word(string word)
    {
        if (string.CompareOrdinal(_text, _at, word, 0, word.Length) != 0)
            throw Damaged();
        _at += word.Length;
    }

    private void Space()
    {
        while (_at < _text.Length && _text[_at] is ' ' or '\t' or '\n' or '\r')
            _at++;
    }

    private FormatException Damaged() => new($"This is no JSON at character {_at}.");
}
