using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Cli.Telling;
using Leafstop.Core.Sensor;
using Leafstop.Report;
using Spectre.Console;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>The words of one answer on the terminal, in JSON and in the report.</summary>
internal static partial class Surfaces
{
    public static string[] Of(BenchAnswer answer) => [Text(answer), JsonWords(answer), ReportWords(BenchReport.Html(answer, []))];

    /// <summary>As a pipe of a given width takes it.</summary>
    public static string Text(BenchAnswer answer, int width = 80, bool allPairs = false)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.No, ColorSystem = ColorSystemSupport.NoColors, Interactive = InteractionSupport.No, Out = new AnsiConsoleOutput(writer) });
        console.Profile.Width = width;
        BenchText.Write(console, answer, allPairs);
        return writer.ToString();
    }

    /// <summary>What a person reads of the page: no style, no script, no tags.</summary>
    public static string ReportWords(string html)
    {
        string body = html[html.IndexOf("<body", StringComparison.Ordinal)..html.IndexOf("<script", StringComparison.Ordinal)];
        return System.Net.WebUtility.HtmlDecode(Tags().Replace(body, ""));
    }

    /// <summary>One kind of space, lines joined.</summary>
    public static string Flat(string text) => Spaces().Replace(text.Replace('\u2009', ' '), " ");

    private static string JsonWords(BenchAnswer answer)
    {
        using JsonDocument json = JsonDocument.Parse(BenchJson.Of(answer));
        return string.Join('\n', Strings(json.RootElement));
    }

    private static IEnumerable<string> Strings(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.String => [element.GetString()!],
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p => Strings(p.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Strings),
        _ => [],
    };

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
