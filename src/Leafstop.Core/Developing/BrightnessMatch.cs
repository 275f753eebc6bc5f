using System.Collections.Immutable;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Developing;

/// <summary>What one crop is multiplied by, in linear light and channel by channel, to be as bright as the same place at the reference level; or why it is not matched.</summary>
public sealed record BrightnessMatch
{
    /// <summary>Brightness that settings do not explain is matched up to this, stops. Source: design figure of this program; a third of a stop already moves a limit.</summary>
    public const double MostUnexplainedStops = 0.5;

    /// <summary>Beyond this share of clipped samples the mean says nothing.</summary>
    public const double MostClipped = 0.02;

    private BrightnessMatch(ImmutableArray<double> factors, double correction, double? unexplained, string? refusal) =>
        (Factors, CorrectionStops, UnexplainedStops, Refusal) = (factors, correction, unexplained, refusal);

    /// <summary>Factor of each channel; when refused all are what the settings explain.</summary>
    public ImmutableArray<double> Factors { get; }

    /// <summary>The factor on green (or the only channel), stops; negative = darkened.</summary>
    public double CorrectionStops { get; }

    /// <summary>The largest part, over the channels, that ISO, shutter and aperture do not explain, stops; positive = the crop is darker than they say. Null when it holds no light to tell it by.</summary>
    public double? UnexplainedStops { get; }

    /// <summary>Why the brightness is not matched, in a sentence; null when it is.</summary>
    public string? Refusal { get; }

    /// <summary>True when the crop is as bright as the reference.</summary>
    public bool IsMatched => Refusal is null;

    /// <summary>Compares a crop with the reference.</summary>
    /// <param name="iso">ISO of the crop, for the sentence.</param>
    /// <param name="reference">Mean of each channel at the reference level, above black, any unit.</param>
    /// <param name="own">Mean of each channel of the crop, same unit.</param>
    /// <param name="explainedStops">How many stops brighter the reference is by its settings.</param>
    /// <param name="clippedShare">Share of the crop's samples that are clipped, 0 to 1.</param>
    /// <exception cref="ArgumentException">The two do not have the same channels.</exception>
    public static BrightnessMatch Of(double iso, IReadOnlyList<double> reference, IReadOnlyList<double> own, double explainedStops, double clippedShare)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(own);
        if (reference.Count == 0 || reference.Count != own.Count) throw new ArgumentException("Reference and crop need the same channels.", nameof(own));
        int green = reference.Count / 2;
        if (reference.Concat(own).Any(m => !(m > 0)))
            return Refused(null, "holds no light that stands above black in every colour, so that there is nothing to match its brightness by", "The place is too dark for this ISO, and the same frame again would show no more: choose a brighter place, or judge without this level.");
        double[] needed = [.. reference.Zip(own, (r, o) => Math.Log2(r / o))];
        double unexplained = needed.Select(n => n - explainedStops).MaxBy(Math.Abs);
        if (clippedShare > MostClipped)
            return Refused(unexplained, $"has {Say.Percent(clippedShare)} of its samples clipped, so that its brightness is not known", "Choose a darker place, or give this level less light.");
        return Math.Abs(unexplained) > MostUnexplainedStops
            ? Refused(unexplained, $"is {Say.Stops(Math.Abs(unexplained))} {(unexplained > 0 ? "darker" : "brighter")} than ISO, shutter and aperture explain; more than 1/2 stop is not matched", "Shoot this level again in the same light as the others.")
            : new BrightnessMatch([.. needed.Select(n => Math.Pow(2, n))], needed[green], unexplained, null);

        BrightnessMatch Refused(double? stops, string why, string advice) => new(
            [.. own.Select(_ => Math.Pow(2, explainedStops))], explainedStops, stops, $"This crop at {Say.Iso(iso)} {why}. {advice}");
    }
}
