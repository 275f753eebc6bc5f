using System.Runtime.CompilerServices;
using Leafstop.Cli.Telling;
using Leafstop.Core.Sensor;
using Spectre.Console;

namespace Leafstop.Cli.Tests.Telling;

public sealed class BenchTextTests
{
    /// <summary>Pinned: our own output, looked at when it was approved. Numbers are checked elsewhere.</summary>
    [Theory]
    [InlineData("sound")]
    [InlineData("drifting-lamp-and-helpful-camera")]
    [InlineData("same-light")]
    [InlineData("nothing-usable")]
    [InlineData("jpeg-only")]
    [InlineData("no-ladder")]
    public void The_text_in_a_pipe_of_80_columns_is_the_approved_one(string name)
    {
        BenchAnswer answer = name switch
        {
            "sound" => BodyABench.Metered(),
            "drifting-lamp-and-helpful-camera" => BodyABench.DriftingLampAndHelpfulCamera(),
            "same-light" => BodyABench.SameLight(),
            "nothing-usable" => BodyABench.NothingUsable(),
            "jpeg-only" => BodyABench.JpegOnly(),
            _ => BodyABench.NoLadder(),
        };
        Approved.Check(Surfaces.Text(answer), $"BenchTextTests.{name}.txt");
    }

    [Fact]
    public void No_line_is_wider_than_the_terminal_and_none_carries_colour_codes_or_boxes()
    {
        foreach ((int width, BenchAnswer answer) in new[] { (60, BodyABench.DriftingLampAndHelpfulCamera()), (80, BodyABench.Crowded()), (120, BodyABench.Mixed()) })
        {
            string text = Surfaces.Text(answer, width);
            Assert.All(text.Split('\n'), line => Assert.True(line.Length <= width, line));
            Assert.DoesNotContain(text, c => c is '\u001B' or (>= '\u2500' and <= '\u257F'));
            Assert.All(text.Split('\n'), line => Assert.Equal(line.TrimEnd(), line));
        }
    }

    [Fact]
    public void A_terminal_with_weights_gets_the_same_words()
    {
        using var writer = new StringWriter { NewLine = "\n" };
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.Yes, ColorSystem = ColorSystemSupport.TrueColor, Out = new AnsiConsoleOutput(writer) });
        console.Profile.Width = 80;
        BenchText.Write(console, BodyABench.Metered());
        Assert.Contains('\u001B', writer.ToString());
        string plain = System.Text.RegularExpressions.Regex.Replace(writer.ToString(), "\u001B\\[[0-9;]*m", "");
        Assert.Equal(Surfaces.Text(BodyABench.Metered()), plain);
    }

    [Fact]
    public void A_finding_is_one_line_even_when_a_file_name_is_not()
    {
        string line = BenchText.Line(new Finding(FindingCode.Unreadable, ["/bench/a\nb\u001B[31m.dng"], "This file is 0 bytes. Copy it again.", Reshoot: true));
        Assert.Equal("Shoot again: This file is 0 bytes. Copy it again. [a\uFFFDb\uFFFD[31m.dng]", line);
    }
}

/// <summary>Compares with an approved text beside the test; on a difference the received text is left beside it.</summary>
internal static class Approved
{
    public static void Check(string received, string file, [CallerFilePath] string test = "")
    {
        string approved = Path.Combine(Path.GetDirectoryName(test)!, file);
        string expected = File.Exists(approved) ? File.ReadAllText(approved).ReplaceLineEndings("\n") : "";
        if (expected != received)
            File.WriteAllText(Path.ChangeExtension(approved, ".received.txt"), received);
        Assert.Equal(expected, received);
    }
}
