using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop demo: the whole way once, on the invented Body A.</summary>
internal static class DemoVerb
{
    private const string CameraName = "Body A";

    public static Command Build(Surroundings say)
    {
        Verb verb = new("demo", "Shows the whole way on the invented Body A: writes a bench ladder, measures it, keeps the camera, answers two scenes.",
            "leafstop demo")
        {
            say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => Run(call, say));
        return verb;
    }

    private static int Run(ParseResult call, Surroundings say)
    {
        bool isQuiet = call.GetValue(say.QuietOption);
        DataFile data = new(say.DataFolder(call));
        string bench = Path.Combine(data.Folder, "demo-bench");
        BenchAnswer answer;
        KeepOutcome kept;
        try
        {
            data.MakeFolder();
            Prepare(bench, isQuiet, say);
            if (!isQuiet)
                say.Error.WriteLine("Measuring it, as leafstop measure does.");
            answer = BenchTelling.MeasureFolder(bench, new PrintCondition(600, 600), isQuiet, say);
            say.Stop.ThrowIfCancellationRequested();
            if (!answer.HasAnswer)
                throw new Refusal(ExitCode.OurFault, $"the demo ladder in {bench} could not be measured. Remove that folder and run this again.");
            kept = new CameraStore(data).Keep(CameraName, [KeptMeasurement.Of(answer, say.Clock.GetUtcNow(), Path.GetFullPath(bench))]);
        }
        catch (ArgumentException other)
        {
            throw Refusal.NoAnswer($"{other.Message} The demo keeps its camera under '{CameraName}': run it with --data and another folder.");
        }

        if (call.GetValue(say.JsonOption))
        {
            say.Out.Write(JsonText.Of(json =>
            {
                json.WriteStartObject();
                json.WriteString("bench", bench);
                json.WriteString("camera", kept.Name);
                json.WritePropertyName("measure");
                json.WriteRawValue(BenchJson.Of(answer));
                DemoScenes.Write(json);
                json.WriteEndObject();
            }));
            return ExitCode.Done;
        }
        BenchTelling.WriteText(say, answer);
        say.Out.WriteLine();
        say.Out.WriteLine("What ISO two pictures need, with this camera");
        say.Out.Write(DemoScenes.Text());
        say.Out.WriteLine();
        say.Out.WriteLine("Wet rock: feet first, then frame. Local rules and rangers come before anything said here.");
        say.Out.WriteLine();
        say.Out.WriteLine("Next:");
        say.Out.WriteLine($"  leafstop cameras show \"{kept.Name}\"                    what was kept");
        say.Out.WriteLine("  leafstop measure --shot-list --lamp mains50       the frames to shoot with your own camera");
        say.Out.WriteLine("  leafstop measure DIR --save NAME                  measure them");
        say.Out.WriteLine("  leafstop strip DIR --out strip.pdf                print a sheet and judge it blind");
        say.Out.WriteLine("  leafstop pocket --print 60cm --distance 60cm --out pocket.html   take the answers along");
        return ExitCode.Done;
    }

    // The ladder appears in one step, so a folder that is there is whole: a second demo uses it again.
    private static void Prepare(string bench, bool isQuiet, Surroundings say)
    {
        if (Directory.Exists(bench) && Directory.EnumerateFileSystemEntries(bench).Any())
        {
            if (!isQuiet)
                say.Error.WriteLine($"The bench ladder of the invented Body A is in {bench} already.");
            return;
        }
        if (!isQuiet)
            say.Error.WriteLine($"Writing a bench ladder of the invented Body A into {bench}.");
        SampleVerb.WriteLadder(new SampleOptions { Width = 1200, Height = 800 }, bench, isQuiet, say);
    }
}
