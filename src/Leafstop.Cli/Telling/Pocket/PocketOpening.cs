using Leafstop.Cli.CommandLine;
using Leafstop.Pocket;
using Leafstop.Pocket.Data;

namespace Leafstop.Cli.Telling.Pocket;

/// <summary>What a pocket page that was never used opens with, worked out here by the page's own code: it stands before the browser has started Core, which takes a telephone seconds.</summary>
internal static class PocketOpening
{
    // Heights of windows, px: from a telephone that lies to a large one upright. Whoever has another waits for Core.
    private const int Lowest = 320, Highest = 1400;

    /// <summary>A list of answers, each from the height of the window on at which more fits or something else: JSON without any &lt;, docs/json/pocket.md.</summary>
    /// <param name="data">The data part of the page.</param>
    public static string Of(string data) => JsonText.Of(json =>
    {
        // Nothing in what is shown first depends on the time.
        PocketPage page = new(PocketData.Read(data), new PocketState());
        string last = "";
        json.WriteStartArray();
        for (page.Height = Lowest; page.Height <= Highest; page.Height++)
        {
            string answer = page.Show(default, keeps: true);
            if (answer == last)
                continue;
            json.WriteStartObject();
            json.WriteNumber("fromHeight", page.Height);
            json.WriteString("answer", last = answer);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    });
}
