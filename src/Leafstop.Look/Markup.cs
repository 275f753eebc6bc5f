using System.Globalization;
using System.Text;
using Leafstop.Core.Text;

namespace Leafstop.Look;

/// <summary>Writes markup that is HTML and well-formed XML at once. Every text and attribute value is encoded; nothing else reaches the page but
/// <see cref="OwnResource"/>, which takes our own style sheets and script.</summary>
public sealed class Markup
{
    private readonly StringBuilder _out = new();
    private readonly Stack<string> _open = new();

    /// <summary>Begins an element.</summary>
    public Markup Open(string tag, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Tag(tag, attributes).Append('>');
        _open.Push(tag);
        return this;
    }

    /// <summary>Ends the innermost element.</summary>
    public Markup Close()
    {
        _out.Append("</").Append(_open.Pop()).Append('>');
        return this;
    }

    /// <summary>An element without content: meta, img, and the marks of a drawing.</summary>
    public Markup Empty(string tag, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Tag(tag, attributes).Append("/>");
        return this;
    }

    /// <summary>An element that holds only text.</summary>
    public Markup Element(string tag, string text, params ReadOnlySpan<(string Name, string Value)> attributes) => Open(tag, attributes).Text(text).Close();

    /// <summary>Encoded text.</summary>
    public Markup Text(string text)
    {
        foreach (char c in text)
            Encode(c);
        return this;
    }

    /// <summary>A line break in the source, for people who read it.</summary>
    public Markup Line()
    {
        _out.Append('\n');
        return this;
    }

    /// <summary>A style sheet or script of this project, as it is.</summary>
    public Markup OwnResource(string text)
    {
        _out.Append(text);
        return this;
    }

    /// <summary>A coordinate or length, at most two decimals.</summary>
    public static string Px(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A share of the width, as a percentage.</summary>
    public static string Share(double value) => (value * 100).ToString("0.###", CultureInfo.InvariantCulture) + "%";

    /// <inheritdoc/>
    public override string ToString() => _open.Count == 0
        ? _out.ToString()
        : throw new InvalidOperationException($"The element {_open.Peek()} is still open.");

    private StringBuilder Tag(string tag, ReadOnlySpan<(string Name, string Value)> attributes)
    {
        _out.Append('<').Append(tag);
        foreach ((string name, string value) in attributes)
        {
            _out.Append(' ').Append(name).Append("=\"");
            foreach (char c in value)
                Encode(c);
            _out.Append('"');
        }

        return _out;
    }

    private void Encode(char c) => _out.Append(c switch
    {
        '<' => "&lt;",
        '>' => "&gt;",
        '&' => "&amp;",
        '"' => "&quot;",
        '\'' => "&#39;",
        '\n' or '\t' => " ",
        // Neither HTML nor XML has a place for these; half a surrogate pair would spoil the file as a whole.
        _ when OutsideText.IsHidden(c) || c is '\uFFFE' or '\uFFFF' => "\uFFFD",
        _ => c.ToString(),
    });
}
