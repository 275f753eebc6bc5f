using System.Collections.Immutable;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Cli.Paper.Strip;

/// <summary>What a test strip shows.</summary>
/// <param name="Number">Number that the answers are typed in with.</param>
/// <param name="Codes">What stands behind each letter.</param>
/// <param name="Repeats">How many levels stand behind two letters.</param>
/// <param name="Crops">The crops of the ladder, each as large as it will be printed.</param>
/// <param name="Places">Where the crops lie.</param>
/// <param name="Tags">What the answers will hold for.</param>
/// <param name="PixelsAcross">Pixels along the width of the print that is meant.</param>
/// <param name="Notes">Levels that are not shown and why, and what was assumed, in sentences.</param>
internal sealed record StripContent(long Number, BlindCodes Codes, int Repeats, DevelopedCrops Crops, ImmutableArray<StripPlace> Places, LimitTags Tags, int PixelsAcross, ImmutableArray<string> Notes)
{
    /// <summary>Subjects in the order in which they lie beside each other, and what stands over them.</summary>
    public static readonly ImmutableArray<(CropSubject Subject, string Head)> Subjects =
        [(CropSubject.Dark, "dark"), (CropSubject.MidTone, "mid tone"), (CropSubject.Texture, "texture")];

    /// <summary>Noise of the smooth places, measured and predicted; for the key and for programs, never for the page that is judged.</summary>
    public ImmutableArray<CropNoise> Noise { get; init; } = [];

    /// <summary>How much each level that is shown was brightened.</summary>
    public ImmutableArray<BrightnessCorrection> Corrections => [.. Crops.Corrections.Where(c => Codes.Ladder.Isos.Any(i => i.Iso == Iso.FromMarking(c.Level.Iso.Speed)))];

    /// <summary>The largest of them, in a sentence.</summary>
    public string? CorrectionWords => Corrections.IsEmpty || Corrections.MaxBy(c => Math.Abs(c.Stops)) is not { } most ? null
        : $"All levels were made equally bright, in linear light: by {Figures.Fixed(most.Stops, 2)}{Figures.NoBreak}stop at most ({Figures.Name(most.Level.Iso)}).";

    /// <summary>How well measured and predicted noise of the mid tone go together, in a sentence; null where there is nothing to compare.</summary>
    public string? NoiseWords
    {
        get
        {
            (CropNoise Noise, double Share)[] compared = [.. Noise.Where(n => n is { Subject: CropSubject.MidTone, Predicted.Lightness: > 0 }).Select(n => (n, n.Measured.Grain.Lightness / n.Predicted!.Lightness - 1))];
            if (compared.Length == 0)
                return null;
            var (worst, share) = compared.MaxBy(c => Math.Abs(c.Share));
            return $"The noise measured in the mid tone agrees with that predicted from the sensor to {Figures.Percent(Math.Abs(share))} or better ({Figures.Name(worst.Level.Iso)} is farthest off).";
        }
    }

    /// <summary>Where the crops lie, "dark 21%,34%, mid tone 50%,47% (chosen by you)".</summary>
    public string PlaceWords => string.Join(", ", Places.Select(p => $"{Subjects.First(s => s.Subject == p.Subject).Head} {p.ToWords()}{(p.IsChosen ? " (chosen by you)" : "")}"));

    /// <summary>By how much the dark is lifted, in a sentence; null where it is shown as it is.</summary>
    public string? LiftWords => Tags.Lift is { Value: > Stops.Hair } lift
        ? $"The dark is lifted by {lift.ToDisplay()} {(lift.Value > 1 + Stops.Hair ? "stops" : "stop")} so that you see into it, the same at every level."
        : null;

    /// <summary>Pixels of the picture on a centimetre of the print that is meant, and so of the strip.</summary>
    public double PixelsPerCentimetre => PixelsAcross / (Tags.Print.WidthMm / 10);

    /// <summary>Side of a crop on the sheet, millimetres: its pixels at that scale.</summary>
    public double SideMm => Crops.Crops[0].SidePixels / PixelsPerCentimetre * 10;

    /// <summary>The picture behind a letter: the frame, or the mix of both, that the key asks for, pixel for pixel.</summary>
    /// <returns>A PNG file; null when the ladder has no such crop.</returns>
    public byte[]? Picture(CodedLevel code, CropSubject subject) => Crops.Png(subject, code.Shown, code.IsSecondFrameFirst, PrintScale.PixelForPixel);
}

/// <summary>Where in the frame the crops of a subject lie.</summary>
/// <param name="Subject">Dark, mid tone or texture.</param>
/// <param name="Across">Their middle from the left edge, as a share of the width.</param>
/// <param name="Down">Their middle from the top edge, as a share of the height.</param>
/// <param name="IsChosen">True where the person chose it.</param>
internal sealed record StripPlace(CropSubject Subject, Share Across, Share Down, bool IsChosen)
{
    /// <summary>As it is typed, "21%,34%".</summary>
    public string ToWords() => FormattableString.Invariant($"{Across.Percent:0}%,{Down.Percent:0}%");
}
