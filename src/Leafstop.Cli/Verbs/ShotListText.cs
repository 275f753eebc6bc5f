using System.Globalization;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Exposure;

namespace Leafstop.Cli.Verbs;

/// <summary>The shot list for a bench test, for a person to print and tick, or as JSON.</summary>
internal static class ShotListText
{
    /// <summary>Reads the two options and writes the list.</summary>
    /// <exception cref="Refusal">An option is missing or wrong.</exception>
    public static string Of(string? lampWord, string? levels, bool isJson)
    {
        string words = string.Join(", ", ShotListWords.Lamps.Select(l => l.Word));
        if (lampWord is null)
            throw Refusal.WrongCall($"--shot-list needs to know the lamp: --lamp with one of {words}.");
        (string Word, Lamp Lamp, string Told) lamp = ShotListWords.Lamps.FirstOrDefault(l => l.Word == lampWord);
        if (lamp.Word is null)
            throw Refusal.WrongCall($"There is no lamp '{lampWord}': use one of {words}.");
        try
        {
            ShotList list = ShotList.For(lamp.Lamp, levels is null ? ShotListWords.UsualLevels : IsoList.Read("--levels", levels));
            return isJson ? Json(list, lamp.Word) : Text(list, lamp.Told);
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall($"--levels: {Refusal.Sentence(wrong)}");
        }
    }

    private static string Text(ShotList list, string lamp)
    {
        StringBuilder text = new();
        text.AppendLine(ShotListWords.Heading(list, lamp));
        text.AppendLine();
        text.AppendLine("  ISO     shutter   scene   cap     light may swing");
        foreach (ShotListLevel level in list.Levels)
        {
            string boxes(int n) => string.Join(' ', Enumerable.Repeat("[ ]", n)).PadRight(8);
            text.AppendLine(CultureInfo.InvariantCulture,
                $"  {BenchText.Plain(Figures.Speed(level.Iso)),-8}{level.Shutter.ToDisplay(),-10}{boxes(level.Frames)}{boxes(level.CapFrames)}{ShotListWords.Swing(level)}");
        }
        text.AppendLine();
        foreach (string line in ShotListWords.Advice("leafstop measure DIR"))
            text.AppendLine(line);
        text.AppendLine();
        text.AppendLine(ShotListWords.HowKnown);
        return text.ToString();
    }

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
