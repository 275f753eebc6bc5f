using System.Globalization;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper;
using Leafstop.Cli.Paper.Card;
using Leafstop.Core.Card;
using Leafstop.Core.Planning;
using static Leafstop.Cli.Telling.JsonValues;

namespace Leafstop.Cli.Telling.Card;

/// <summary>What is said of a card that was made, and its numbers as JSON. Described in docs/json/card.md.</summary>
internal static class CardTelling
{
    /// <summary>For the terminal.</summary>
    public static string Text(PocketCard card, PaperSheet sheet, string file, IReadOnlyList<string> assumed, int? width)
    {
        int room = Math.Clamp((width ?? 101) - 1, 40, 100);
        string size = sheet == PaperSheet.A6 ? "A6" : "the size of a bank card";
        string[] told =
        [
            $"The card of {card.Text.Name} is in {file}: {size}, two sides, for a print {PlanSentences.PrintWords(card.Text.Print)}.",
            card.Limits is { } limits ? PlanSentences.LimitWords(limits) : card.MeasuredTo is null ? "Its limits are unknown." : "No limit was reached.",
            .. Measured(card),
            $"Print both pages at 100 %; the line at the foot of the back is {PaperPen.Mm(CardDocument.MeasuringLineMm)} long then. Its code holds {card.Text.Bytes} bytes: leafstop cameras import reads them back.",
            .. assumed,
        ];
        return BenchText.Plain(string.Concat(told.SelectMany(t => TextColumns.Wrap(OneLine.Of(t), room)).Select(l => l + "\n")));
    }

    /// <summary>How far was measured, where a limit lies above that.</summary>
    private static IEnumerable<string> Measured(PocketCard card)
    {
        if (card.MeasuredTo is { } highest)
            yield return $"By the criterion ISO {Figures.Dial(highest)}, the highest measured, is still {(card.IsCleanThroughout ? "clean" : "within stretch")} for this print; nothing is known above it.";
    }

    /// <summary>For programs.</summary>
    public static string Json(PocketCard card, PaperSheet sheet, string file, IReadOnlyList<string> assumed) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("file", file);
        json.WriteString("size", sheet.Name);
        json.WriteNumber("widthMm", sheet.WidthMm);
        json.WriteNumber("heightMm", sheet.HeightMm);
        json.WriteString("camera", card.Text.Name);
        json.WriteNumber("baseIso", card.Text.BaseIso.Speed);
        json.WriteStartObject("print");
        json.WriteNumber("widthMm", card.Text.Print.WidthMm);
        json.WriteNumber("viewingDistanceMm", card.Text.Print.ViewingDistanceMm);
        json.WriteEndObject();
        Limits(json, card);
        Number(json, "measuredToIso", card.MeasuredTo?.Speed);
        List(json, "ladder", card.Ladder, rung =>
        {
            json.WriteNumber("gapStops", rung.Gap.Value);
            json.WriteNumber("isoExact", rung.Answer.Iso.Speed);
            json.WriteNumber("isoDial", rung.Dial.Speed);
            json.WriteString("verdict", Camel(rung.Answer.Verdict));
        });
        List(json, "giveUp", card.GiveUp, row =>
        {
            json.WriteString("what", row.Words);
            json.WriteNumber("stops", row.Least.Value);
            json.WriteNumber("stopsMost", row.Most.Value);
            json.WriteString("how", Camel(row.How));
        });
        List(json, "lenses", card.Lenses, lens =>
        {
            json.WriteNumber("focalMm", lens.FocalLength.Millimetres);
            List(json, "water", card.Wish.Distances.Zip(lens.Water), pair =>
            {
                json.WriteNumber("distanceMm", pair.First.Millimetres);
                json.WriteNumber("shutterSeconds", pair.Second.Seconds);
            });
            List(json, "leaves", card.Wish.Distances.Zip(lens.Leaves), pair =>
            {
                json.WriteNumber("distanceMm", pair.First.Millimetres);
                Number(json, "shutterSeconds", pair.Second.Mark()?.Seconds);
                Number(json, "exactSeconds", pair.Second.Exact?.Seconds);
            });
            List(json, "hyperfocal", card.Wish.Apertures.Zip(lens.Hyperfocal), pair =>
            {
                json.WriteNumber("aperture", pair.First.Ratio);
                json.WriteNumber("distanceMm", pair.Second.Millimetres);
            });
        });
        List(json, "frames", card.Odds, odds =>
        {
            json.WriteNumber("oneIn", odds.OneIn);
            json.WriteNumber("frames", odds.Frames);
        });
        json.WriteNumber("cropToTwoThirdsStops", card.CropCosts.Value);
        json.WriteNumber("circleOfConfusionMm", card.CircleOfConfusion.Millimetres);
        json.WriteNumber("screenZoom", card.Zoom);
        json.WriteString("text", card.Text.ToString());
        json.WriteNumber("textBytes", card.Text.Bytes);
        json.WriteStartArray("assumed");
        foreach (string sentence in assumed)
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    private static void Limits(Utf8JsonWriter json, PocketCard card)
    {
        if (card.Limits is not { } limits)
        {
            json.WriteNull("limits");
            return;
        }
        json.WriteStartObject("limits");
        Number(json, "cleanIso", limits.Clean?.Speed);
        Number(json, "cleanDial", limits.CleanDial?.Speed);
        Number(json, "stretchIso", limits.Stretch?.Speed);
        Number(json, "stretchDial", limits.StretchDial?.Speed);
        json.WriteString("how", Camel(limits.Origin));
        json.WriteBoolean("converted", !limits.Shifts.IsEmpty);
        json.WriteString("judgedOn", card.Text.JudgedOn is { } day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : null);
        json.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
