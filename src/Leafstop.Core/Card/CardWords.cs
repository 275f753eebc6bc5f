using System.Collections.Immutable;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Card;

/// <summary>The words of a card's text, one for each value.</summary>
internal static class CardWords
{
    public const string Camera = "camera", Body = "body", Pixels = "pixels", Base = "base", Measured = "measured", Step = "step", Limits = "limits", MeasuredTo = "measured-to", Clean = "clean", Stretch = "stretch",
        Tag = "of", Tone = "tone", Treatment = "treatment", LimitPrint = "for", Lift = "lift", Print = "print", Made = "made", Check = "check";

    public static readonly ImmutableArray<(LimitOrigin Value, string Word)> Origins =
        [(LimitOrigin.Judged, "judged"), (LimitOrigin.Given, "given"), (LimitOrigin.WorkedOut, "worked-out"), (LimitOrigin.Invented, "invented")];

    public static readonly ImmutableArray<(ToneKind Value, string Word)> Tones =
        [(ToneKind.NotStated, "not-stated"), (ToneKind.MidGrey, "mid-grey"), (ToneKind.Shadows, "shadows"), (ToneKind.Smooth, "smooth"), (ToneKind.Textured, "textured")];

    public static readonly ImmutableArray<(NoiseTreatment Value, string Word)> Treatments =
        [(NoiseTreatment.NotStated, "not-stated"), (NoiseTreatment.None, "none"), (NoiseTreatment.Usual, "usual")];

    public static string WordOf<T>(ImmutableArray<(T Value, string Word)> words, T value) where T : struct, Enum =>
        words.Single(w => w.Value.Equals(value)).Word;
}
