namespace Leafstop.Core.Sensor;

/// <summary>The colour filter pattern of a sensor and the planes it is measured in.</summary>
/// <remarks>A plane is a set of samples that are measured together. On a 2×2 pattern the two greens are two planes
/// (they may have different amplifiers); on larger patterns a plane is a colour. A sensor without filters has the one plane "M".</remarks>
public sealed record MosaicPattern
{
    /// <summary>Rows of the repeating cell: 1, 2 or 6 (others as a file states them).</summary>
    public required int Rows { get; init; }

    /// <summary>Columns of the repeating cell.</summary>
    public required int Columns { get; init; }

    /// <summary>One letter a site, row by row, starting at the top left of the active area: R, G, B, or M without filters.</summary>
    public required string Letters { get; init; }

    /// <summary>"2x2", "6x6" or "1x1", as people write it.</summary>
    public string Name => $"{Rows}x{Columns}";

    /// <summary>The names of the planes in a fixed order: R, G1, G2, B on 2×2; R, G, B on larger patterns; M without filters.</summary>
    public IReadOnlyList<string> PlaneNames() => Split().Names;

    /// <summary>The plane index of each site of the cell, row by row, indexing <see cref="PlaneNames"/>.</summary>
    public IReadOnlyList<int> PlaneOfSite() => Split().Sites;

    private (string[] Names, int[] Sites) Split()
    {
        bool twoGreens = Rows == 2 && Columns == 2 && Letters.Count(c => c == 'G') == 2;
        var perSite = new string[Letters.Length];
        int greens = 0;
        for (int i = 0; i < Letters.Length; i++)
            perSite[i] = twoGreens && Letters[i] == 'G' ? $"G{++greens}" : Letters[i].ToString();
        string[] order = ["R", "G", "G1", "G2", "B", "M"];
        string[] names = [.. perSite.Distinct().OrderBy(n => Array.IndexOf(order, n) is var at && at < 0 ? 99 : at).ThenBy(n => n, StringComparer.Ordinal)];
        return (names, [.. perSite.Select(n => Array.IndexOf(names, n))]);
    }
}
