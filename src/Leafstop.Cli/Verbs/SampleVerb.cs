using System.CommandLine;
using System.Globalization;
using System.Numerics;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop sample: a bench ladder of the invented Body A as DNG files, whose truth is known.</summary>
internal static class SampleVerb
{
    private static readonly Argument<string> Folder = new("DIR") { Description = "Folder to make; the truth goes into DIR.truth.json beside it." };
    private static readonly Option<string> Mosaic = Choice("--mosaic", "Colour filter pattern", "2x2", "6x6");
    private static readonly Option<string> Size = new("--size") { Description = "Size in pixels; 2400x1600 when not given.", HelpName = "WxH" };
    private static readonly Option<ulong> Seed = Whole<ulong>("--seed", "Seed of all noise", usual: 1, least: 0, most: ulong.MaxValue);
    private static readonly Option<string> Ladder = Choice("--ladder", "Kind of ladder", "metered", "same-light");
    private static readonly Option<string?> Isos = new("--isos") { Description = "Levels, such as \"100 200 400\".", HelpName = "ISOS" };
    private static readonly Option<int> Frames = Whole("--frames", "Frames a level", usual: 2, least: 1, most: 99);
    private static readonly Option<int> Caps = Whole("--caps", "Lens-cap frames a level", usual: 2, least: 0, most: 99);
    private static readonly Option<string> Compression = Choice("--compression", "Compression of the raw samples", "lossless", "none");
    private static readonly Option<string[]> Fault = new("--fault")
    {
        Description = $"Something that goes wrong; may be given more than once: {string.Join("; ", SampleFaultWords.Forms)}.",
        HelpName = "FAULT",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
    };

    public static Command Build(Surroundings say)
    {
        Verb verb = new("sample", "Writes a bench ladder of the invented Body A, whose truth is known.",
            "leafstop sample ~/body-a",
            "leafstop sample ~/body-a-6x6 --mosaic 6x6 --size 1200x800 --seed 7",
            "leafstop sample ~/drift --fault \"lamp-drift 1600 0.4\" --fault \"hot-pixels 0.001\"")
        {
            Folder, Mosaic, Size, Seed, Ladder, Isos, Frames, Caps, Compression, Fault, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => Write(call, say));
        return verb;
    }

    /// <summary>Writes a ladder; refusals in sentences for the person.</summary>
    /// <returns>The files.</returns>
    public static IReadOnlyList<string> WriteLadder(SampleOptions options, string folder, bool isQuiet, Surroundings say)
    {
        ProgressLine? line = isQuiet ? null : new ProgressLine(say.Error, say.ErrorWidth);
        try
        {
            return BenchSample.Write(options, folder, line is null ? null : new Lines(line), say.Stop);
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall(Refusal.Sentence(wrong));
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw Refusal.WrongCall(error.Message);
        }
        finally
        {
            line?.Finish();
        }
    }

    private static int Write(ParseResult call, Surroundings say)
    {
        string folder = call.GetRequiredValue(Folder);
        SampleOptions options = Options(call);
        IReadOnlyList<string> files = WriteLadder(options, folder, call.GetValue(say.QuietOption), say);
        string truth = BenchSample.TruthPath(folder);
        if (call.GetValue(say.JsonOption))
            say.Out.Write(JsonText.Of(json =>
            {
                json.WriteStartObject();
                json.WriteString("folder", Path.GetFullPath(folder));
                json.WriteNumber("files", files.Count);
                json.WriteString("truth", truth);
                json.WriteEndObject();
            }));
        else if (!call.GetValue(say.QuietOption))
            say.Out.WriteLine($"{files.Count} frames of the invented Body A in {folder}, their truth in {truth}. Next: leafstop measure \"{folder}\"");
        return ExitCode.Done;
    }

    private static SampleOptions Options(ParseResult call)
    {
        (int width, int height) = Pixels(call.GetValue(Size));
        SampleOptions options = new()
        {
            Mosaic = call.GetValue(Mosaic) == "6x6" ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo,
            Width = width,
            Height = height,
            Seed = call.GetValue(Seed),
            Ladder = call.GetValue(Ladder) == "same-light" ? LadderKind.SameLight : LadderKind.Metered,
            FramesPerLevel = call.GetValue(Frames),
            CapFramesPerLevel = call.GetValue(Caps),
            Lossless = call.GetValue(Compression) != "none",
        };
        if (call.GetValue(Isos) is { } isos)
            options = options with { Isos = [.. IsoList.Read("--isos", isos).Select(i => i.Speed).Distinct().Order()] };
        return SampleFaultWords.Apply(options, call.GetValue(Fault) ?? []);
    }

    private static (int Width, int Height) Pixels(string? text)
    {
        if (text is null)
            return (2400, 1600);
        string[] parts = text.Split('x', 'X', '\u00D7');
        return parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int width)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int height)
            ? (width, height)
            : throw Refusal.WrongCall($"--size: '{text}' cannot be read: write width and height in pixels such as 2400x1600.");
    }

    private static Option<string> Choice(string name, string what, string usual, string other)
    {
        Option<string> option = new(name)
        {
            Description = $"{what}: {usual} (when not given) or {other}.",
            HelpName = $"{usual}|{other}",
            DefaultValueFactory = _ => usual,
        };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && token.Value != usual && token.Value != other)
                result.AddError($"{name} is {usual} or {other}, not '{token.Value}'");
        });
        return option;
    }

    private static Option<T> Whole<T>(string name, string what, T usual, T least, T most) where T : struct, IBinaryInteger<T> => new(name)
    {
        Description = $"{what}; {usual} when not given.",
        HelpName = "N",
        DefaultValueFactory = _ => usual,
        CustomParser = result =>
        {
            string text = result.Tokens[0].Value;
            if (T.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out T number) && number >= least && number <= most)
                return number;
            string range = most.CompareTo(T.CreateSaturating(1_000_000)) > 0 ? $"from {least} on" : $"from {least} to {most}";
            result.AddError($"{name} is a whole number {range}, not '{text}'");
            return usual;
        },
    };

    private sealed class Lines(ProgressLine line) : IProgress<SampleProgress>
    {
        public void Report(SampleProgress value) => line.Report(value.Done, value.Total, value.File);
    }
}
