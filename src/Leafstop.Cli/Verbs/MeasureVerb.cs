using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Sensor;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop measure: from a folder of raws to the model of a camera, or the list of frames to shoot for it.</summary>
internal static class MeasureVerb
{
    private static readonly Argument<string?> Folder = new("DIR")
    {
        Description = "Folder of raw files of a bench test.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private static readonly Option<string?> Save = new("--save")
    {
        Description = "Keep the camera, under NAME or under the model that the files state. Measuring again adds to its history.",
        HelpName = "NAME",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private static readonly Option<string?> Report = new("--report") { Description = "Write one printable page, .html.", HelpName = "FILE" };
    private static readonly PrintOptions Print = new("that limits are worked out for");
    private static readonly Option<bool> AllPairs = new("--all-pairs") { Description = "Show every pair of ISOs under lift or dial." };
    private static readonly Option<bool> ShotListOption = new("--shot-list") { Description = "Write the frames to shoot for a bench test." };
    private static readonly Option<string?> Lamp = new("--lamp") { Description = "What lights the bench, for --shot-list: mains50, mains60 or led-dc.", HelpName = "LAMP" };
    private static readonly Option<string?> Levels = new("--levels") { Description = "ISOs for --shot-list, such as \"100 200 400\".", HelpName = "ISOS" };

    public static Command Build(Surroundings say)
    {
        Verb verb = new("measure", "Measures a camera from a folder of raw files.",
            "leafstop measure ~/bench --save \"Body A\"",
            "leafstop measure ~/bench --print 90cm --distance 90cm --report bench.html",
            "leafstop measure ~/bench --json",
            "leafstop measure --shot-list --lamp mains50")
        {
            Folder, Save, Report, Print.Print, Print.Distance, AllPairs, ShotListOption, Lamp, Levels, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => call.GetValue(ShotListOption) ? List(call, say) : Measure(call, say));
        return verb;
    }

    private static int List(ParseResult call, Surroundings say)
    {
        if (call.GetValue(Folder) is not null || call.GetResult(Save) is not null || call.GetValue(Report) is not null)
            throw Refusal.WrongCall("--shot-list goes with --lamp, --levels and --json only: it measures nothing.");
        say.Out.Write(ShotListText.Of(call.GetValue(Lamp), call.GetValue(Levels), call.GetValue(say.JsonOption)));
        return ExitCode.Done;
    }

    private static int Measure(ParseResult call, Surroundings say)
    {
        if (call.GetValue(Lamp) is not null || call.GetValue(Levels) is not null)
            throw Refusal.WrongCall("--lamp and --levels go with --shot-list.");
        (string folder, string? name, bool isKept) = FolderAndName(call);
        PrintCondition print = Print.Read(call);
        string? report = call.GetValue(Report);
        if (report is not null && Path.GetExtension(report).ToUpperInvariant() is not (".HTML" or ".HTM"))
            throw Refusal.WrongCall($"--report writes a page: give it a name that ends in .html, not '{report}'.");
        if (report is not null)
            ResultFile.CheckPlace(report, mayReplace: true);
        if (name is not null)
            name = Tidy(name);
        string data = isKept ? DataFolders.Writable(call, say) : "";

        bool isQuiet = call.GetValue(say.QuietOption);
        BenchAnswer answer = BenchTelling.MeasureFolder(folder, print, isQuiet, say);
        say.Stop.ThrowIfCancellationRequested();
        // A refusal is said once: on stderr. JSON carries it as well, for programs that read nothing else.
        string? refusal = answer.HasAnswer ? null : RefusalOf(answer, report is null ? folder : null);
        if (call.GetValue(say.JsonOption))
            say.Out.WriteLine(BenchJson.Of(answer));
        else if (refusal is not null)
            BenchTelling.WriteBeside(say, answer, refusal);
        else
            BenchTelling.WriteText(say, answer, call.GetValue(AllPairs));
        if (report is not null)
            ResultFile.Put(report, BenchTelling.Page(answer, Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder))), isQuiet, say), isQuiet, say);
        if (refusal is not null)
            throw Refusal.NoAnswer(refusal);
        if (isKept)
            Keep(answer, Path.GetFullPath(folder), name, data, isQuiet, say);
        return ExitCode.Done;
    }

    // The folder is named where JPEGs could still be looked at, and no page was asked for.
    private static string RefusalOf(BenchAnswer answer, string? unshown)
    {
        // This finding says all that the verdict would, and more.
        if (answer.Findings.FirstOrDefault(f => f.Code == FindingCode.JpegOnly) is { } jpegs && answer.Levels.IsEmpty)
        {
            string look = unshown is null ? "" : $" To look at them: leafstop measure \"{OneLine.Of(unshown)}\" --report look.html";
            return BenchText.Plain($"I cannot measure this camera. {jpegs.Text}{look}");
        }

        BenchVerdict verdict = BenchVerdict.Of(answer);
        // The page of words has the rest; where no frame was read, the finding tells more than the verdict's advice.
        string why = answer.Levels.IsEmpty ? WhyEmpty(answer) ?? verdict.Second.Text : verdict.Second.Text;
        return BenchText.Plain($"{verdict.Sentence} {why}");
    }

    private static string? WhyEmpty(BenchAnswer answer) => answer.Findings.Any(f => f.Code == FindingCode.FolderGone)
        ? null
        : answer.Findings.FirstOrDefault(f => f.Code == FindingCode.NoLadder)?.Text;

    private static void Keep(BenchAnswer answer, string folder, string? name, string data, bool isQuiet, Surroundings say)
    {
        string chosen = name ?? answer.Camera!.Model;
        if (string.IsNullOrWhiteSpace(chosen))
            throw Refusal.WrongCall("the files state no model to name the camera after: use --save NAME.");
        try
        {
            KeepOutcome kept = new CameraStore(new DataFile(data)).Keep(chosen, [KeptMeasurement.Of(answer, say.Clock.GetUtcNow(), folder)]);
            if (!isQuiet)
                say.Error.WriteLine($"Kept as '{kept.Name}'{(kept.History > 1 ? $", measured {kept.History} times" : "")}. See it with: leafstop cameras show \"{kept.Name}\"");
        }
        catch (ArgumentException other)
        {
            throw Refusal.WrongCall(other.Message);
        }
    }

    // "--save DIR" with nothing behind it is taken for what it must mean.
    private static (string Folder, string? Name, bool IsKept) FolderAndName(ParseResult call)
    {
        bool isKept = call.GetResult(Save) is not null;
        string? folder = call.GetValue(Folder), name = call.GetValue(Save);
        if (folder is null && name is not null && Directory.Exists(name))
            (folder, name) = (name, null);
        if (string.IsNullOrEmpty(folder))
            throw Refusal.WrongCall("measure needs the folder of the raw files: leafstop measure DIR.");
        if (File.Exists(folder))
            throw Refusal.WrongCall($"'{folder}' is a file: name the folder that it lies in.");
        if (Directory.Exists(folder))
            return (folder, name, isKept);
        // The system hands names over as text; bytes that are no text arrive as U+FFFD and lead nowhere.
        throw Refusal.WrongCall(folder.Contains('\uFFFD', StringComparison.Ordinal)
            ? $"The name of the folder '{folder}' is not valid UTF-8, so it cannot be opened by that name: rename it."
            : $"There is no folder '{folder}'.");
    }

    private static string Tidy(string name)
    {
        try
        {
            return CameraStore.TidyName(name);
        }
        catch (ArgumentException)
        {
            throw Refusal.WrongCall($"--save: a camera's name has 1 to {CameraStore.LongestName} characters, all of them visible.");
        }
    }
}
