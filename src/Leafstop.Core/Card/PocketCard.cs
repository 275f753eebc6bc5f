using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Card;

/// <summary>Everything that stands on a pocket card, as numbers. Each comes from the part of the program that answers the same question elsewhere.</summary>
public sealed record PocketCard
{
    /// <summary>The longest ladder, stops: beyond it nobody dials in the field.</summary>
    public const int MostStops = 8;

    /// <summary>What a lull gives at most: rule of thumb, no source. At least it is what half the leaf's speed gives, <see cref="LeavesWish.LullShare"/>.</summary>
    public static readonly Stops LullMost = Stops.Of(3);

    /// <summary>What a polariser takes at least and at most: rule of thumb, no source.</summary>
    public static readonly (Stops Least, Stops Most) PolariserTakes = (Stops.Of(1), Stops.Of(2));

    /// <summary>What noise reduction gives in smooth tones: rule of thumb, no source.</summary>
    public static readonly (Stops Least, Stops Most) NoiseReductionGives = (Stops.Of(1), Stops.Of(2));

    /// <summary>Where foam in shade lies over mid-grey: rule of thumb, no source.</summary>
    public static readonly (Stops Least, Stops Most) FoamOverMidGrey = (Stops.Of(2), Stops.FromThirds(8));

    private static readonly ImmutableArray<int> OddsShown = [2, 3, 5, 10];

    // The exposure that the give-up table is told for. Its rows gain the same from any other.
    private static readonly (FNumber Aperture, ShutterTime Shutter) Usual = (FNumber.FromMarking(11), ShutterTime.FromMarking(0.25));

    /// <summary>What its code says.</summary>
    public required CardText Text { get; init; }

    /// <summary>What the tables are for.</summary>
    public required CardWish Wish { get; init; }

    /// <summary>The limits for the card's print, those that were reached; null when none are known.</summary>
    public NoiseLimits? Limits { get; init; }

    /// <summary>The highest ISO that was measured, where a limit that is missing lies above it; null elsewhere.</summary>
    public Iso? MeasuredTo => Text.MeasuredTo;

    /// <summary>True where even the highest ISO that was measured is clean.</summary>
    public bool IsCleanThroughout { get; init; }

    /// <summary>The ladder in thirds, from base up to a third past the stretch limit, or to the highest ISO that was measured where it does not reach that limit, at most <see cref="MostStops"/>; six stops without a limit.</summary>
    public required ImmutableArray<CardRung> Ladder { get; init; }

    /// <summary>What can be given up, in the order of a plan.</summary>
    public required ImmutableArray<CardGiveUp> GiveUp { get; init; }

    /// <summary>What a crop to two thirds of the width costs, above zero.</summary>
    public required Stops CropCosts { get; init; }

    /// <summary>The lenses.</summary>
    public required ImmutableArray<CardLens> Lenses { get; init; }

    /// <summary>Frames for a 95 % chance.</summary>
    public required ImmutableArray<CardOdds> Odds { get; init; }

    /// <summary>Circle of confusion on the sensor for the card's print, at the acuity that depth uses when none is given.</summary>
    public required Length CircleOfConfusion { get; init; }

    /// <summary>The zoom of the camera's screen that equals the card's print.</summary>
    public required double Zoom { get; init; }

    /// <summary>Works the card out.</summary>
    /// <param name="text">Camera, limits, print.</param>
    /// <param name="wish">Lenses and tastes.</param>
    /// <exception cref="ArgumentOutOfRangeException">A lens that cannot focus at the distances asked for.</exception>
    public static PocketCard Of(CardText text, CardWish wish)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(wish);
        NoiseLimits? limits = text.LimitsFor(text.Print);
        Length width = Length.FromMillimetres(text.Print.WidthMm), distance = Length.FromMillimetres(text.Print.ViewingDistanceMm);
        Length circle = ViewingCondition.Of(width, distance, DepthWish.AcuityWhenOmitted).CircleOfConfusion(wish.Format);
        return new PocketCard
        {
            Text = text,
            Wish = wish,
            Limits = limits,
            IsCleanThroughout = text.MeasuredTo is not null && limits?.Clean is null && text.WorkedOutFor(text.Print)?.Limits.Clean is not null,
            Ladder = LadderOf(text, limits),
            GiveUp = GiveUpOf(text, limits),
            CropCosts = -LimitScaling.Crop(2 / 3.0).Stops,
            Lenses = [.. wish.Lenses.Select(l => LensOf(l, text.Print, wish, circle))],
            Odds = [.. OddsShown.Select(n => new CardOdds(n, FrameOdds.FramesFor(Chance.Of(1.0 / n), Chance.UsuallySure)!.Value))],
            CircleOfConfusion = circle,
            Zoom = ScreenZoom.EqualTo(width, distance, wish.Format, wish.Screen, ScreenZoom.UsualDistance),
        };
    }

    private static ImmutableArray<CardRung> LadderOf(CardText text, NoiseLimits? limits)
    {
        int top = text.MeasuredTo is { } measured ? Math.Clamp(Thirds(measured), 6, MostStops * 3)
            : (limits?.Stretch ?? limits?.Clean) is { } highest ? Math.Clamp(Thirds(highest) + 1, 6, MostStops * 3)
            : 18;
        // As far as was measured what lies above stands for a limit that was not reached; beyond that nothing is known.
        NoiseLimits? known = text.MeasuredTo is null ? limits : text.WorkedOutFor(text.Print)?.Limits;
        return [.. Enumerable.Range(0, top + 1).Select(Rung)];

        int Thirds(Iso iso) => (int)Math.Round(iso.Above(text.BaseIso).ThirdAtOrBelow().Value * 3);

        CardRung Rung(int thirds)
        {
            var gap = Stops.FromThirds(thirds);
            var answer = GapAnswer.Of(SceneOf(text, text.MeasuredTo is { } measured && thirds > Thirds(measured) ? limits : known, gap));
            return new CardRung(gap, answer, DialledIso.Of(answer.Iso).Dial);
        }
    }

    private static ImmutableArray<CardGiveUp> GiveUpOf(CardText text, NoiseLimits? limits)
    {
        // One stop past clean: there the table offers what is worth one stop.
        Stops gap = limits?.Clean is { } clean ? clean.Above(text.BaseIso) + Stops.Of(1) : Stops.Of(3);
        Scene scene = SceneOf(text, limits, gap) with { FiltersOn = new FilterSet([Filter.Polariser(Filter.UsualPolariser)]) };
        GiveUpRow[] rows = [.. GiveUpTable.Of(scene, GapAnswer.Of(scene), null)];
        CardGiveUp?[] all =
        [
            new("wait for a lull", "wait for a lull", Stops.FromRatio(1 / LeavesWish.LullShare), LullMost, HowKnown.RuleOfThumb),
            Row(GiveUpKind.Polariser, _ => "polariser off", HowKnown.RuleOfThumb),
            Row(GiveUpKind.Aperture, r => $"{Usual.Aperture.ToDisplay()} to {r.After.Aperture.ToDisplay()}"),
            Row(GiveUpKind.Shutter, _ => "twice the shutter"),
            Row(GiveUpKind.SmallerPrint, r => $"print {Centimetres(text.Print)} to {Centimetres(r.After.PrintAsked!)} cm"),
            Row(GiveUpKind.Average, r => $"average {r.After.FramesAveraged}, still parts", shortWords: r => $"average {r.After.FramesAveraged} (still)"),
            new("noise reduction, smooth tones", "noise reduction", NoiseReductionGives.Least, NoiseReductionGives.Most, HowKnown.RuleOfThumb),
        ];
        return [.. all.OfType<CardGiveUp>()];

        CardGiveUp? Row(GiveUpKind what, Func<GiveUpRow, string> words, HowKnown? how = null, Func<GiveUpRow, string>? shortWords = null) =>
            rows.FirstOrDefault(r => r.What == what) is { } row ? new CardGiveUp(words(row), (shortWords ?? words)(row), row.Gained, row.Gained, how ?? row.How) : null;
    }

    private static Scene SceneOf(CardText text, NoiseLimits? limits, Stops gap) => new()
    {
        Aperture = Usual.Aperture,
        Shutter = Usual.Shutter,
        Metered = ExposureGap.LightWhen(gap, Usual.Aperture, Usual.Shutter, text.BaseIso),
        BaseIso = text.BaseIso,
        Limits = limits,
        Print = text.Print,
    };

    private static CardLens LensOf(Length focal, PrintCondition print, CardWish wish, Length circle)
    {
        var lens = Lens.Of(focal);
        return new CardLens(
            focal,
            [.. wish.Distances.Select(d => WaterView.Of(lens, SubjectDistance.Of(d), wish.Format).ShutterFor(wish.Taste, wish.Water).NearestMark())],
            [.. wish.Distances.Select(d => new LeavesWish(MovingSubject.Of(lens, SubjectDistance.Of(d)), SpeedBand.WithinFactor(wish.Leaf.PeakSpeed, 1), wish.Format, HowKnown.RuleOfThumb).Holding(print, 1))],
            [.. wish.Apertures.Select(a => lens.Hyperfocal(a, circle))]);
    }

    private static string Centimetres(PrintCondition print) => Written.Short(Math.Round(print.WidthMm / 10));
}
