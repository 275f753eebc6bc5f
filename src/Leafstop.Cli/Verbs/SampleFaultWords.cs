using Leafstop.Cli.CommandLine;
using Leafstop.Core.Quantities;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Cli.Verbs;

/// <summary>Faults of a sample ladder as they are written: a name and its numbers.</summary>
internal static class SampleFaultWords
{
    private static readonly (string Name, string Numbers, int Least, int Most, Func<SampleOptions, double[], SampleOptions> Apply)[] Known =
    [
        ("lamp-drift", "ISO STOPS", 2, 2, (o, n) => o with { Faults = o.Faults with { LampDriftIso = n[0], LampDriftStops = n[1] } }),
        ("smoothing", "ISO CORRELATION", 2, 2, (o, n) => o with { Faults = o.Faults with { SmoothingFromIso = n[0], SmoothingCorrelation = n[1] } }),
        ("arithmetic", "ISO", 1, 1, (o, n) => o with { Faults = o.Faults with { ArithmeticIso = n[0] } }),
        ("moved", "ISO RIGHT DOWN", 2, 3, (o, n) => o with
        {
            Faults = o.Faults with { MovedIso = n[0], MovedXPx = n[1], MovedYPx = n.Length > 2 ? n[2] : 0 },
        }),
        ("hot-pixels", "SHARE", 1, 1, (o, n) => o with { Faults = o.Faults with { HotPixelShare = n[0] } }),
        ("row-banding", "TIMES", 1, 1, (o, n) => o with { Faults = o.Faults with { RowBanding = n[0] } }),
        ("black-clipped", "ISO", 1, 1, (o, n) => o with { Faults = o.Faults with { ClippedBlackFromIso = n[0] } }),
        ("prnu", "SHARE", 1, 1, (o, n) => o with { PixelResponseSpread = n[0] }),
    ];

    /// <summary>Every fault with its numbers, for the help.</summary>
    public static IEnumerable<string> Forms => Known.Select(k => $"{k.Name} {k.Numbers}");

    /// <summary>Adds the faults to the options.</summary>
    /// <exception cref="Refusal">A fault is unknown or its numbers are wrong.</exception>
    public static SampleOptions Apply(SampleOptions options, IEnumerable<string> faults)
    {
        HashSet<int> given = [];
        foreach (string fault in faults)
        {
            string[] words = fault.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            int at = words.Length == 0 ? -1 : Array.FindIndex(Known, k => k.Name == words[0]);
            if (at < 0)
                throw Refusal.WrongCall($"--fault: there is no fault '{fault}': write one of {string.Join("; ", Forms)}.");
            if (words.Length - 1 < Known[at].Least || words.Length - 1 > Known[at].Most)
                throw Refusal.WrongCall($"--fault: '{fault}' is not complete: write \"{Known[at].Name} {Known[at].Numbers}\".");
            if (!given.Add(at))
                throw Refusal.WrongCall($"--fault: {Known[at].Name} is given twice: a ladder has each fault once.");
            options = Known[at].Apply(options, [.. words.Skip(1).Select(w => Number(w, fault))]);
        }
        return options;
    }

    // Stops reads every way of writing a number, thirds among them.
    private static double Number(string word, string fault) => Stops.TryParse(word, out Stops number, out string why)
        ? number.Value
        : throw Refusal.WrongCall($"--fault \"{fault}\": {why}");
}
