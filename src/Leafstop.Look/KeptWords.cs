namespace Leafstop.Look;

/// <summary>What became of a camera that was brought along, in the words that command line and page share.</summary>
public static class KeptWords
{
    /// <summary>Of a camera file.</summary>
    /// <param name="name">The name under which it is kept.</param>
    /// <param name="added">Measurings that were added.</param>
    /// <param name="alreadyThere">Measurings that were there before.</param>
    /// <param name="history">Measurings kept now.</param>
    public static string OfFile(string name, int added, int alreadyThere, int history) => (added, alreadyThere) switch
    {
        (0, _) => $"'{name}' holds all of this already; nothing was changed.",
        (_, 0) => $"Kept as '{name}': {Measurings(added)} added, {history} in its history.",
        _ => $"Kept as '{name}': {Measurings(added)} added, {alreadyThere} were there already, {history} in its history.",
    };

    /// <summary>Of a pocket card that was read back.</summary>
    /// <param name="name">The name under which it is kept.</param>
    /// <param name="cardsAdded">Cards that were added.</param>
    /// <param name="history">Measurings kept now.</param>
    public static string OfCard(string name, int cardsAdded, int history) => cardsAdded == 0
        ? $"'{name}' holds this card already; nothing was changed."
        : $"Kept as '{name}', from a card: {(history == 0 ? "its limits and noise as the card carries them, without intervals or single answers" : "what was measured and judged here goes before it")}.";

    private static string Measurings(int n) => n == 1 ? "1 measuring" : $"{Figures.Fixed(n, 0)} measurings";
}
