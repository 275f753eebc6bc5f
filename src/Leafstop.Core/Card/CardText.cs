using System.Collections.Immutable;
using System.Text;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Card;

/// <summary>What the code on a pocket card says: a camera, its limits with their five tags, the print and the day, as a short text. Described in docs/card-text.md.</summary>
/// <remarks>It holds what a plan needs and no more: no intervals of the measured noise, no frames, no single answers, no number of the body. Whoever reads it back has not got
/// those, and may not make them up. Two are equal when their texts are. Days are those of the platform: the pocket page carries this code, and the date library would make it a third larger.</remarks>
public sealed record CardText
{
    /// <summary>What the text begins with, before its version.</summary>
    public const string Heading = "LEAFSTOP CARD";

    /// <summary>The version that is written, and the highest that is read.</summary>
    public const int Version = 1;

    /// <summary>The text stays below as many bytes of UTF-8, so that its code can be printed small.</summary>
    public const int ByteLimit = 700;

    /// <summary>What stands for the body of a card that was made from limits alone.</summary>
    public static readonly CameraIdentity NoBody = new() { Make = "", Model = "", Width = 0, Height = 0, Mosaic = "", Bits = 0 };

    /// <summary>The name that the camera is kept under, 1 to 80 visible characters.</summary>
    public required string Name { get; init; }

    /// <summary>The body: maker and model together as the model, and without its number; <see cref="NoBody"/> when it is not known.</summary>
    public required CameraIdentity Camera { get; init; }

    /// <summary>Base ISO, as the exact power of its mark.</summary>
    public required Iso BaseIso { get; init; }

    /// <summary>The day on which the levels were measured; null when they were not, or it is not known.</summary>
    public DateOnly? MeasuredOn { get; init; }

    /// <summary>The noise at each ISO, lowest first; empty when it is not known.</summary>
    public ImmutableArray<CardLevel> Levels { get; init; } = [];

    /// <summary>Gain steps, lowest first.</summary>
    public ImmutableArray<CardStep> Steps { get; init; } = [];

    /// <summary>The limits as they were judged, given or worked out, for the print that their own tags name; null when none are known.</summary>
    public NoiseLimits? Limits { get; init; }

    /// <summary>The highest ISO that was measured, where the worked-out limits that are missing lie above it; null elsewhere. It is no limit: nothing is known above it.</summary>
    public Iso? MeasuredTo { get; init; }

    /// <summary>The day of the judging; null when nothing was judged.</summary>
    public DateOnly? JudgedOn { get; init; }

    /// <summary>How sure the clean limit is; null when that is not known.</summary>
    public LimitRange? CleanRange { get; init; }

    /// <summary>How sure the stretch limit is; null when that is not known.</summary>
    public LimitRange? StretchRange { get; init; }

    /// <summary>The print that the card is for.</summary>
    public required PrintCondition Print { get; init; }

    /// <summary>The day on which the card was made.</summary>
    public required DateOnly MadeOn { get; init; }

    /// <summary>Length of the text in bytes of UTF-8.</summary>
    public int Bytes => Encoding.UTF8.GetByteCount(ToString());

    /// <summary>The sensor over ISO; null when no level is carried.</summary>
    public ModelCurve? Curve => ModelCurve.Of(Levels.Select(l => (l.Iso, l.Model)), Steps.Select(s => (s.Below, s.Above)));

    /// <summary>The limits for a print, those that were reached: judged or given ones converted as a plan converts them, worked-out ones worked out anew; null when none are known.</summary>
    public NoiseLimits? LimitsFor(PrintCondition print) => IsFor(print) ? Limits?.For(print) : WorkedOutFor(print)?.Reached;

    /// <summary>The limits that the levels of the card give for a print by the published criterion; null when they cannot tell, or when the limits are the person's own.</summary>
    public WorkedOutLimits? WorkedOutFor(PrintCondition print) =>
        (MeasuredTo is not null || Limits is { Origin: LimitOrigin.WorkedOut }) && Curve is { } curve ? WorkedOutLimits.Of(Name, curve, Camera, print, LimitTone.MidGrey) : null;

    /// <summary>True where the limits of the card answer for a print, converted or as they are; false where they are worked out anew.</summary>
    private bool IsFor(PrintCondition print) => Curve is null || (Limits is null ? MeasuredTo is null || print == Print : Limits.Origin != LimitOrigin.WorkedOut || Limits.Tags.Print == print);

    /// <summary>The same card, with those levels left out that change the curve least, until the text is short enough. First, last and the levels beside a step stay.</summary>
    /// <exception cref="ArgumentException">Name and body alone are too long; the message is for the person.</exception>
    public CardText Fitted()
    {
        CardText card = this with { Levels = [.. Levels.OrderBy(l => l.Iso)] };
        while (card.Bytes >= ByteLimit)
        {
            CardLevel spared = card.Spared()
                ?? throw new ArgumentException($"The names of '{Name}' are too long for a card, whose code holds less than {ByteLimit} bytes: export the camera and import it under a shorter name.");
            card = card with { Levels = card.Levels.Remove(spared) };
        }
        return card;
    }

    /// <summary>The text, lines parted by line feeds, none at the end.</summary>
    public override string ToString() => CardWriting.Of(this);

    /// <summary>Reads the text of a card, however its lines are broken.</summary>
    /// <exception cref="FormatException">Not a card, a newer one, cut off or damaged; the message is for the person.</exception>
    public static CardText Parse(string text) => CardReading.Of(text);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out CardText? card, out string why)
    {
        try
        {
            (card, why) = (CardReading.Of(text), "");
            return true;
        }
        catch (FormatException wrong)
        {
            (card, why) = (null, wrong.Message);
            return false;
        }
    }

    /// <summary>True for a text that means to be a card, damaged or not.</summary>
    public static bool IsMeant(string text) => text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n').StartsWith(Heading, StringComparison.Ordinal);

    /// <summary>Equal when the texts are.</summary>
    public bool Equals(CardText? other) => other is not null && ToString() == other.ToString();

    /// <inheritdoc/>
    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);

    private CardLevel? Spared()
    {
        if (Levels.Length <= 2)
            return null;
        CardLevel[] free = [.. Levels[1..^1].Where(l => !Steps.Any(s => s.Below == l.Iso || s.Above == l.Iso))];
        return free.Length > 0 ? free.MinBy(Missed) : Levels[1];
    }

    /// <summary>How far, in stops, the curve without a level misses it.</summary>
    private double Missed(CardLevel level)
    {
        NoiseModel without = (this with { Levels = Levels.Remove(level) }).Curve!.At(level.Iso.Speed);
        return Math.Abs(Math.Log2(without.ReadNoiseElectrons / level.Model.ReadNoiseElectrons)) + Math.Abs(Math.Log2(without.SaturationElectrons / level.Model.SaturationElectrons));
    }
}
