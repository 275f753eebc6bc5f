using System.Text.RegularExpressions;

namespace Leafstop.Cli.Tests.Look;

/// <summary>Derived: marks in a sentence, against the pattern that tells them in one line.</summary>
public sealed class ProseTests
{
    private const string Pattern = @"e\u207B|\d{1,3}(?:\u2009\d{3})+|(?<![\d/.])(?:[12]/3|1/2)(?![\d/]|\.\d)(?!\s?s\b)";

    [Theory]
    [InlineData("had 2/3 stop more light at 1/3 s and 1/125 s.")]
    [InlineData("2 1/3 stops, 1/3, 2/3s and 1/3 stop, 11/3, 1/30, 0.1/3, 1/3/5, 1 1/2 stops, 1/2.8, 1/25, 1/2 s, 3/2")]
    [InlineData("12\u2009500 e\u207B and 1\u2009234\u2009567 at ISO\u00A012\u2009800, 1\u20092")]
    [InlineData("e\u207B/DN, e, 1/3\u00A0s, 1/3 second, 1/3 sharp, 2/3")]
    [InlineData("")]
    public void Fractions_thousands_and_electrons_are_marked(string text)
    {
        string expected = Regex.Replace(text, Pattern, m => m.Value[0] == 'e' ? "e<sup>\u2212</sup>" : $"<span class=\"{(m.Value.Contains('\u2009') ? "nb" : "fr")}\">{m.Value}</span>");
        Assert.Equal(expected, new Markup().Say(text).ToString());
    }
}
