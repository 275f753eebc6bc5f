using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Text;

namespace Leafstop.Core.Light;

/// <summary>What share of the open light reaches the ground under trees.</summary>
/// <remarks>Stands differ and spots in a stand differ by ±1 stop; sunflecks by more (L-20). Two readings of your own, inside and outside, are worth more than any name here.</remarks>
public sealed record Canopy
{
    private Canopy(string name, double share, double low, double high, string source) =>
        (Name, Share, Low, High, Source) = (name, share, low, high, source);

    /// <summary>Its name, or the share as it was written.</summary>
    public string Name { get; }

    /// <summary>Share of the open light, above 0 to 1.</summary>
    public double Share { get; }

    /// <summary>Lower end of what was published for it.</summary>
    public double Low { get; }

    /// <summary>Upper end of what was published for it.</summary>
    public double High { get; }

    /// <summary>Where it is from.</summary>
    public string Source { get; }

    /// <summary>No trees.</summary>
    public static Canopy None { get; } = new("none", 1, 1, 1, "open ground");

    /// <summary>True under trees.</summary>
    public bool IsOverhead => Share < 1;

    /// <summary>Stands with published light: by name, darkest first.</summary>
    public static ImmutableArray<Canopy> Known { get; } =
    [
        Between("rainforest", 0.004, 0.038, "L-19: tropical rainforest 0.4 to 3.8 %; the geometric middle"),
        ByLeaves("spruce-plantation", 10, "L-22 and L-21: leaf area up to 10"),
        new("aspen-summer", 0.059, 0.0295, 0.118, "L-17: boreal aspen in leaf 5.9 %"),
        Between("spruce-thinned", 0.03, 0.14, "L-18: heavily thinned Norway spruce 3 to 14 %; the geometric middle"),
        ByLeaves("broadleaf-summer", 5.5, "L-22 and L-21: temperate mixed leafwood, leaf area about 5.5"),
        new("mixed-autumn", 0.08, 0.04, 0.16, "L-17: aspen with spruce after leaf-fall 8 %"),
        ByLeaves("pine", 3.5, "L-22 and L-21: pine, leaf area 3 to 4"),
        new("aspen-leafless", 0.26, 0.13, 0.52, "L-17: aspen after leaf-fall 26 %"),
        new("holm-oak", 0.5, 0.25, 1, "L-31: evergreen oak wood about 50 %, half of it in sunflecks"),
    ];

    /// <summary>Takes a share of the open light, as you metered it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 to 1; the message is for the person.</exception>
    public static Canopy FromShare(double share) => share is > 0 and <= 1
        ? share == 1 ? None : new Canopy(string.Create(CultureInfo.InvariantCulture, $"{share:0.####}"), share, share / 2, Math.Min(1, share * 2), "the share given")
        : throw new ArgumentOutOfRangeException(nameof(share), share, "The share of light under trees is above 0 and at most 1, such as 0.06.");

    /// <summary>Works the share out of the leaf area over a square metre of ground: e^(−k·LAI).</summary>
    /// <param name="leafAreaIndex">Leaf area index, 0 to 20.</param>
    /// <param name="extinction">k, above 0 to 1; 0.5 is for leaves at random and diffuse light.</param>
    /// <remarks>Beer and Lambert's law, rows L-21 and L-23; k = 0.5 from memory.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Out of those ranges.</exception>
    public static Canopy FromLeafArea(double leafAreaIndex, double extinction = 0.5)
    {
        if (!(leafAreaIndex is >= 0 and <= 20))
            throw new ArgumentOutOfRangeException(nameof(leafAreaIndex), leafAreaIndex, "A leaf area index is from 0 to 20.");
        if (!(extinction is > 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(extinction), extinction, "An extinction coefficient of leaves is above 0 and at most 1.");
        return FromShare(Math.Exp(-extinction * leafAreaIndex));
    }

    /// <summary>Reads "0.06", "6%", "lai 5.5" or a name such as "aspen-summer".</summary>
    /// <param name="text">What was written.</param>
    /// <param name="canopy">The canopy; open ground when it cannot be read.</param>
    /// <param name="why">A sentence when it cannot be read; else empty.</param>
    public static bool TryParse(string? text, out Canopy canopy, out string why)
    {
        string bare = (text ?? "").Trim().ToLowerInvariant();
        canopy = None;
        why = "";
        if (bare is "none" or "open")
            return true;
        if (Known.FirstOrDefault(k => k.Name == bare) is { } known)
        {
            canopy = known;
            return true;
        }
        bool isLeafArea = bare.StartsWith("lai", StringComparison.Ordinal), isPercent = bare.EndsWith('%');
        if (!Written.TryNumber(isLeafArea ? bare[3..] : bare.TrimEnd('%'), [], "a share", out double number, out _))
        {
            why = $"'{text?.Trim()}' is no canopy that is known here: write a share of the open light such as 0.06 or 6%, a leaf area such as \"lai 5.5\", or one of {string.Join(", ", Known.Select(k => k.Name))}.";
            return false;
        }
        try
        {
            canopy = isLeafArea ? FromLeafArea(number) : FromShare(isPercent ? number / 100 : number);
            return true;
        }
        catch (ArgumentOutOfRangeException)
        {
            why = isLeafArea
                ? $"'{text?.Trim()}' is no leaf area: it is from 0 to 20."
                : $"'{text?.Trim()}' is no share of light: it is above 0 and at most 1, such as 0.06 (or 6%).";
            return false;
        }
    }

    private static Canopy Between(string name, double low, double high, string source) => new(name, Math.Sqrt(low * high), low, high, source);

    private static Canopy ByLeaves(string name, double leafArea, string source) =>
        new(name, Math.Exp(-0.5 * leafArea), Math.Exp(-0.5 * leafArea) / 2, Math.Exp(-0.5 * leafArea) * 2, source);
}
