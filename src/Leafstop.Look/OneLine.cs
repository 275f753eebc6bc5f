using Leafstop.Core.Text;

namespace Leafstop.Look;

/// <summary>Text from outside (names of files, of cameras, of folders) as it may be shown on a terminal.</summary>
public static class OneLine
{
    /// <summary>The text with every character that would break the line, move the cursor or turn the direction of writing shown as U+FFFD.</summary>
    public static string Of(string text) => string.Create(text.Length, text, static (line, from) =>
    {
        for (int i = 0; i < line.Length; i++)
            line[i] = OutsideText.IsHidden(from[i]) ? '\uFFFD' : from[i];
    });
}
