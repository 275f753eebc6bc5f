using System.Globalization;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Verbs;

/// <summary>The shot list for a bench test, for a person to print and tick, or as JSON.</summary>
internal static class ShotListText
{
    private static readonly (string Word, Lamp Lamp, string Told)[] Lamps =
    [
        ("mains50", Lamp.Mains50, "a lamp on 50 Hz mains"),
        ("mains60", Lamp.Mains60, "a lamp on 60 Hz mains"),
        ("led-dc", Lamp.LedDc, "LEDs on direct current"),
    ];

    /// <summary>Reads the two options and writes the list.</summary>
    /// <exception cref="Refusal">An option is missing or wrong.</exception>
    public static string Of(string? lampWord, string? levels, bool isJson)
    {
        string words = string.Join(", ", Lamps.Select(l => l.Word));
        if (lampWord is null)
            throw Refusal.WrongCall($"--shot-list needs to know the lamp: --lamp with one of {words}.");
        (string Word, Lamp Lamp, string Told) lamp = Lamps.FirstOrDefault(l => l.Word == lampWord);
        if (lamp.Word is null)
            throw Refusal.WrongCall($"There is no lamp '{lampWord}': use one of {words}.");
        try
        {
            ShotList list = ShotList.For(lamp.Lamp, Isos(levels));
            return isJson ? Json(list, lamp.Word) : Text(list, lamp.Told);
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall($"--levels: {wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]}");
        }
    }

    private static Iso[] Isos(string? levels) => levels is null
        ? [.. ShotList.UsualLevels.Select(l => Iso.FromSpeed(l))]
        : [.. IsoList.Read("--levels", levels)];

    private static string Text(ShotList list, string lamp)
    {
        StringBuilder text = new();
        text.AppendLine(CultureInfo.InvariantCulture, $"Bench test under {lamp}: {list.TotalFrames} raw frames at {list.Aperture.ToDisplay()}.");
        text.AppendLine();
        text.AppendLine("  ISO     shutter   scene   cap     light may swing");
        foreach (ShotListLevel level in list.Levels)
        {
            string boxes(int n) => string.Join(' ', Enumerable.Repeat("[ ]", n)).PadRight(8);
            string swing = level.RippleShare < 0.0005 ? "-" : $"{(level.RippleShare * 100).ToString("0.0", CultureInfo.InvariantCulture)} %";
            text.AppendLine(CultureInfo.InvariantCulture,
                $"  {BenchText.Plain(Figures.Speed(level.Iso)),-8}{level.Shutter.ToDisplay(),-10}{boxes(level.Frames)}{boxes(level.CapFrames)}{swing}");
        }
        text.AppendLine();
        foreach (string line in Advice)
            text.AppendLine(line);
        text.AppendLine();
        text.AppendLine(
            "How it is known: the swing is worked out for a lamp that flickers fully, the rest is common practice.");
        return text.ToString();
    }

    private static readonly string[] Advice =
    [
        "Scene: something black in shadow, a smooth mid-tone, moss or bark, a white that just does not clip.",
        "Let the lamp warm up for 15 minutes and keep daylight out. Tripod, 2 s delay, manual focus, manual white balance.",
        "Raw in full bit depth, stabilisation off, long-exposure noise reduction off, the same shutter type throughout.",
        "Cap frames: lens cap on, same ISO and shutter. Then: leafstop measure DIR, before you take the scene down.",
    ];

    private static string Json(ShotList list, string lamp) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("lamp", lamp);
        json.WriteNumber("fNumber", list.Aperture.Ratio);
        json.WriteNumber("totalFrames", list.TotalFrames);
        json.WriteStartArray("levels");
        foreach (ShotListLevel level in list.Levels)
        {
            json.WriteStartObject();
            json.WriteNumber("iso", level.Iso.Speed);
            json.WriteNumber("shutterSeconds", level.Shutter.Seconds);
            json.WriteString("shutterMark", level.Shutter.ToDisplay());
            json.WriteNumber("frames", level.Frames);
            json.WriteNumber("capFrames", level.CapFrames);
            json.WriteNumber("rippleShare", level.RippleShare);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    });
}
