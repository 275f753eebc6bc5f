using System.Globalization;
using System.Text;

namespace Leafstop.Pocket.Data;

/// <summary>Writes JSON (RFC 8259) without a line break, member by member.</summary>
internal sealed class JsonWriting
{
    private readonly StringBuilder _text = new();
    private bool _isFirst = true;

    public JsonWriting Open(char bracket, string name = "")
    {
        Begin(name);
        _text.Append(bracket);
        _isFirst = true;
        return this;
    }

    public JsonWriting Close(char bracket)
    {
        _text.Append(bracket);
        _isFirst = false;
        return this;
    }

    public JsonWriting Text(string name, string value)
    {
        Begin(name);
        Quoted(value);
        return this;
    }

    /// <summary>A number; infinity is the text "inf", which JSON has no number for.</summary>
    public JsonWriting Number(string name, double value)
    {
        Begin(name);
        _text.Append(double.IsFinite(value) ? value.ToString("R", CultureInfo.InvariantCulture) : "\"inf\"");
        return this;
    }

    /// <summary>A number, or nothing.</summary>
    public JsonWriting Optional(string name, double? value) => value is { } number ? Number(name, number) : this;

    public JsonWriting Truth(string name, bool value)
    {
        Begin(name);
        _text.Append(value ? "true" : "false");
        return this;
    }

    public override string ToString() => _text.ToString();

    /// <summary>The comma, and the name where there is one: items of an array have none.</summary>
    private void Begin(string name)
    {
        if (!_isFirst)
            _text.Append(',');
        _isFirst = false;
        if (name.Length == 0)
            return;
        Quoted(name);
        _text.Append(':');
    }

    private void Quoted(string value)
    {
        _text.Append('"');
        foreach (char c in value)
        {
            if (c is '"' or '\\')
                _text.Append('\\').Append(c);
            else if (c < ' ')
                _text.Append("\\u").Append(((int)c).ToString("x4", CultureInfo.InvariantCulture));
            else
                _text.Append(c);
        }
        _text.Append('"');
    }
}
