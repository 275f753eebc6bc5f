using System.Collections.Immutable;
using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Serving;
using Leafstop.Cli.Telling;
using Leafstop.Cli.Telling.Judging;
using Leafstop.Core.Judging;
using Leafstop.Core.Sensor;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Strips;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop judge: the person's own limits, on the screen or from the answers to a strip on paper.</summary>
internal static class JudgeVerb
{
    private static readonly Argument<string?> Folder = new("DIR") { Description = "Folder of your bench test, to be judged in the browser; the one that the camera was measured from when left out.", Arity = ArgumentArity.ZeroOrOne };
    private static readonly Option<bool> NoOpen = new("--no-open") { Description = "Tell the address of the page and open no browser." };
    private static readonly Option<string?> Paper = new("--paper") { Description = "Answers to a strip: letters, each followed by clean, bearable, no or unsure.", HelpName = "ANSWERS" };
    private static readonly Option<long?> Strip = WholeNumber.Option("--strip", "Number of the strip, at the foot of its sheet.");
    private static readonly Option<string?> Camera = new("--camera") { Description = "Kept camera; with --paper, instead of the one that the strip was made for.", HelpName = "NAME" };
    private static readonly Option<bool> ListAll = new("--history") { Description = "Lists every judging of the camera, numbered from the oldest." };
    private static readonly Option<long?> Drop = WholeNumber.Option("--drop", "Drops a judging of the list: it stays in it and counts no more.");
    private static readonly Option<long?> Restore = WholeNumber.Option("--restore", "Takes a dropped judging back in.");
    private static readonly PrintOptions Print = new("that is judged");

    public static Command Build(Surroundings say)
    {
        Verb verb = new("judge", "Finds your own limits: blind, in the browser or from what you answered to a test strip.",
            "leafstop judge ~/bench --print 60cm --distance 60cm --camera \"Body A\"",
            "leafstop judge --strip 3 --paper \"A clean, B clean, C no, D bearable, E unsure\"",
            "leafstop judge --print 60cm --distance 60cm --camera \"Body A\"",
            "leafstop judge --history --camera \"Body A\"",
            "leafstop judge --drop 2 --camera \"Body A\"")
        {
            Folder, NoOpen, Paper, Strip, Print.Print, Print.Distance, Camera, ListAll, Drop, Restore, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => call.GetValue(ListAll) || call.GetValue(Drop) is not null || call.GetValue(Restore) is not null ? History(call, say)
            : call.GetValue(Folder) is { } folder ? OpenPage(call, folder, say)
            : call.GetValue(Paper) is { } answers ? ReadPaper(call, answers, say)
            : Explain(call, say));
        return verb;
    }

    private static int OpenPage(ParseResult call, string folder, Surroundings say)
    {
        if (call.GetValue(Paper) is not null || call.GetValue(Strip) is not null)
            throw Refusal.WrongCall("DIR opens the judging in the browser, --paper and --strip read a sheet: give one or the other.");
        PrintCondition print = Print.Read(call);
        string data = DataFolders.Writable(call, say);
        return OpenPage(call, folder, print, PlanLimits.Find(call.GetValue(Camera), data).Camera?.Name, data, say);
    }

    private static int OpenPage(ParseResult call, string folder, PrintCondition print, string? camera, string data, Surroundings say)
    {
        string page = $"judging?folder={Uri.EscapeDataString(Path.GetFullPath(folder))}&print={Uri.EscapeDataString(Option(print.WidthMm))}&distance={Uri.EscapeDataString(Option(print.ViewingDistanceMm))}"
            + (camera is null ? "" : $"&camera={Uri.EscapeDataString(camera)}");
        return Workbench.Serve(
            new WorkbenchWish(data, [folder]) { Page = page, OpensBrowser = !call.GetValue(NoOpen), IsJson = call.GetValue(say.JsonOption), IsQuiet = call.GetValue(say.QuietOption) }, say);
    }

    private static int ReadPaper(ParseResult call, string typed, Surroundings say)
    {
        if (call.GetValue(Strip) is not { } number)
            throw Refusal.WrongCall("--paper goes with --strip N: the number stands at the foot of the sheet.");
        if (call.GetValue(Print.Print) is not null || call.GetValue(Print.Distance) is not null)
            throw Refusal.WrongCall("a strip holds for the print and the distance that it was made for: leave --print and --distance out, or make another strip.");
        string data = say.DataFolder(call);
        KeptStrip strip = new StripRecord(data).Find(number);
        if (!PaperAnswers.TryRead(typed, strip.Codes(), out PaperAnswers? answers, out string why))
            throw Refusal.WrongCall($"--paper: {Figures.Uncapital(why)}");

        JudgingResult result = answers!.Judge(strip.Tags);
        string camera = call.GetValue(Camera) ?? strip.Camera;
        if (Refusal.Told(() => new CameraStore(new DataFile(data)).Find(camera))?.RefusalOf(strip.Tags) is { } other)
            throw Refusal.NoAnswer(other);
        List<string> further = [];
        if (answers.Missing.ToArray() is { Length: > 0 } missing)
            further.Add($"{Figures.List(missing)} {(missing.Length == 1 ? "has" : "have")} no answer: the rest was used.");
        bool isKept = Kept(data, camera, KeptJudging.Of(answers, result, say.Clock.GetUtcNow()), further);
        if (call.GetValue(say.JsonOption))
            say.Out.Write(JudgingTelling.Json(result, camera, isKept, further));
        else
            say.Out.Write(JudgingTelling.Text(result, further, say.OutWidth ?? 100));
        return result.HasLimits ? ExitCode.Done : ExitCode.NoAnswer;
    }

    /// <summary>Keeps a judging with its camera and tells how it goes with the last one; false where no such camera is kept.</summary>
    private static bool Kept(string data, string camera, KeptJudging judging, List<string> further)
    {
        try
        {
            JudgementStore store = new(new DataFile(data));
            KeptJudging? before = store.Newest(camera, judging.Result.Tags);
            if (!store.KeepBeside(camera, judging))
            {
                further.Add($"Not kept: no camera '{camera}' is. Measure it with leafstop measure DIR --save \"{camera}\" and type the answers in again.");
                return false;
            }
            further.Add(judging.Result.HasLimits
                ? $"Kept with '{camera}'. leafstop plan uses what was found for this print from now on."
                : $"The answers are kept with '{camera}'; they tell no limit, so leafstop plan goes on as before.");
            if (store.Newest(camera, judging.Result.Tags) is { Borrowed: { } borrowed })
                further.Add($"Your {borrowed.Question.Limit()} limit of {Day(borrowed.JudgedAt)} still stands: this judging says nothing against it.");
            if (before is not null)
                further.AddRange(JudgingComparison.Of(before.Result, judging.Result).ToSentences());
            return true;
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall($"--camera: {Figures.Uncapital(Refusal.Sentence(wrong))}");
        }
    }

    private static int Explain(ParseResult call, Surroundings say)
    {
        if (call.GetValue(Strip) is not null)
            throw Refusal.WrongCall("--strip goes with --paper \"A clean, B no, …\": the answers that you wrote beside the letters.");
        PrintCondition print = Print.Read(call);
        string data = say.DataFolder(call);
        (KeptCamera? camera, string? remark) = PlanLimits.Find(call.GetValue(Camera), data);
        string lengths = $"--print {Option(print.WidthMm)} --distance {Option(print.ViewingDistanceMm)}", owner = camera is null ? "" : $" --camera \"{camera.Name}\"";
        bool isJson = call.GetValue(say.JsonOption);
        // A program that asks wants the answer, not a page.
        string? bench = isJson ? null : camera?.Measurements.Reverse().Select(m => m.Folder).FirstOrDefault(Directory.Exists);
        List<string> told =
        [
            camera is not null ? Known(camera, data, print)
                : remark is null ? "I cannot say what your limits are: no camera is kept yet."
                : "I cannot say which limits are meant: each camera has its own.",
            "Two questions find them, asked blind: does the noise disturb you (clean), and would you put your name to this print (stretch)?",
            bench is null
                ? $"On the screen: leafstop judge DIR {lengths}{owner} opens them in the browser, DIR being the folder of your bench test."
                : $"On the screen: the page opens now, with the frames in {bench}. leafstop judge DIR {lengths}{owner} opens it with others.",
            $"On paper: leafstop strip DIR {lengths}{owner} --out strip.pdf writes a sheet to print and judge. Then leafstop judge --strip N --paper \"A clean, B no, …\".",
        ];
        if (remark is not null)
            told.Add(remark);
        if (camera?.Measurements.LastOrDefault(m => !string.IsNullOrEmpty(m.Folder)) is { } measured && !camera.Measurements.Any(m => Directory.Exists(m.Folder)))
            told.Add($"The frames that {camera.Name} was measured from are no longer in {measured.Folder}: give the folder where they are now.");
        if (isJson)
        {
            say.Out.Write(JsonText.Of(json =>
            {
                json.WriteStartObject();
                json.WriteString("camera", camera?.Name);
                json.WriteNumber("printWidthMm", print.WidthMm);
                json.WriteNumber("viewingDistanceMm", print.ViewingDistanceMm);
                json.WriteStartArray("words");
                foreach (string line in told)
                    json.WriteStringValue(OneLine.Of(line));
                json.WriteEndArray();
                json.WriteEndObject();
            }));
            return ExitCode.Done;
        }
        foreach (string line in told.SelectMany(t => TextColumns.Wrap(OneLine.Of(t), say.OutWidth ?? 100)))
            say.Out.WriteLine(line.Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' '));
        return bench is null ? ExitCode.Done : OpenPage(call, bench, print, camera!.Name, DataFolders.Writable(call, say), say);
    }

    private static string Known(KeptCamera camera, string data, PrintCondition print)
    {
        KeptJudging? judged = new JudgementStore(new DataFile(data)).Speaking(camera.Name).FirstOrDefault(j => j.Result.Tags.Print == print);
        return judged is not null
            ? $"On {Day(judged.JudgedAt)} you judged {camera.Name}: {judged.Result.ToSentences()[0]}"
            : $"You have not judged {camera.Name} at a print {Figures.Length(print.WidthMm)} wide seen from {Figures.Length(print.ViewingDistanceMm)} yet.";
    }

    private static int History(ParseResult call, Surroundings say)
    {
        if (call.GetValue(Drop) is not null && call.GetValue(Restore) is not null)
            throw Refusal.WrongCall("--drop and --restore are two calls: give one of them.");
        if (call.GetValue(Strip) is not null || call.GetValue(Paper) is not null || call.GetValue(Print.Print) is not null || call.GetValue(Print.Distance) is not null)
            throw Refusal.WrongCall("--history, --drop and --restore go with --camera alone.");
        string data = say.DataFolder(call);
        (KeptCamera? camera, string? remark) = PlanLimits.Find(call.GetValue(Camera), data);
        if (camera is null)
            throw Refusal.NoAnswer(remark ?? "no camera is kept yet, so nothing was judged.");
        JudgementStore store = new(new DataFile(data));
        ImmutableArray<KeptJudging> all = store.List(camera.Name);
        if ((call.GetValue(Drop) ?? call.GetValue(Restore)) is { } number)
        {
            if (number < 1 || number > all.Length)
                throw Refusal.NoAnswer(all.Length == 0 ? $"'{camera.Name}' was never judged." : $"'{camera.Name}' has no judging {number}: leafstop judge --history lists 1 to {all.Length}.");
            _ = store.Drop(camera.Name, all[(int)number - 1].Key, call.GetValue(Drop) is null ? null : say.Clock.GetUtcNow());
            all = store.List(camera.Name);
        }
        ImmutableArray<KeptJudging> speaking = store.Speaking(camera.Name);
        say.Out.Write(call.GetValue(say.JsonOption) ? JudgingTelling.HistoryJson(camera.Name, all, speaking) : JudgingTelling.HistoryText(camera.Name, all, speaking, say.OutWidth ?? 100));
        return ExitCode.Done;
    }

    private static string Day(DateTimeOffset at) => JudgingTelling.Day(at);

    private static string Option(double mm) => System.FormattableString.Invariant($"{mm / 10:0.##}cm");
}
