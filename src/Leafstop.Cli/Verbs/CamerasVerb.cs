using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Card;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop cameras: list, show, export, import and forget the cameras that were kept.</summary>
internal static class CamerasVerb
{
    public static Command Build(Surroundings say)
    {
        Verb verb = new("cameras", "Lists, shows, exports, imports and forgets measured cameras.",
            "leafstop cameras",
            "leafstop cameras show \"Body A\"",
            "leafstop cameras export \"Body A\" body-a.json",
            "leafstop cameras import body-a.json",
            "leafstop cameras forget \"Body A\" --export body-a.json")
        {
            List(say), Show(say), Export(say), Import(say), CamerasForget.Build(say, call => Store(call, say), (call, name) => Find(call, name, say)), say.JsonOption,
        };
        verb.SetAction(call => WriteList(call, say));
        return verb;
    }

    private static Verb List(Surroundings say)
    {
        Verb verb = new("list", "Lists the cameras that were kept.", "leafstop cameras list", "leafstop cameras list --json") { say.JsonOption };
        verb.SetAction(call => WriteList(call, say));
        return verb;
    }

    private static int WriteList(ParseResult call, Surroundings say) => Told(() =>
    {
        KeptCamera[] cameras = [.. Store(call, say).List()];
        say.Out.Write(call.GetValue(say.JsonOption) ? CameraText.ListJson(cameras) : CameraText.List(cameras));
    });

    private static Verb Show(Surroundings say)
    {
        Argument<string> name = Name();
        Verb verb = new("show", "Shows a camera and the history of its measuring.", "leafstop cameras show \"Body A\"") { name, say.JsonOption };
        verb.SetAction(call => Told(() =>
        {
            KeptCamera camera = Find(call, name, say);
            say.Out.Write(call.GetValue(say.JsonOption) ? CameraFile.Write(camera) : CameraText.Show(camera, [.. new JudgementStore(new DataFile(say.DataFolder(call))).Speaking(camera.Name).Select(OwnLimits.Of)], say.OutWidth ?? 100));
        }));
        return verb;
    }

    private static Verb Export(Surroundings say)
    {
        Argument<string> name = Name();
        Argument<string?> file = new("FILE") { Description = "File to write; to the terminal when left out.", Arity = ArgumentArity.ZeroOrOne };
        Verb verb = new("export", "Writes a camera with its history as JSON.",
            "leafstop cameras export \"Body A\" body-a.json", "leafstop cameras export \"Body A\" > body-a.json")
        {
            name, file, say.QuietOption,
        };
        verb.SetAction(call => Told(() =>
        {
            KeptCamera camera = Find(call, name, say);
            if (call.GetValue(file) is not { } path)
            {
                say.Out.Write(CameraFile.Write(camera));
                return;
            }
            ResultFile.Write(path, CameraFile.Write(camera), mayReplace: false);
            if (!call.GetValue(say.QuietOption))
                say.Error.WriteLine($"Wrote {path}.");
        }));
        return verb;
    }

    private static Verb Import(Surroundings say)
    {
        Argument<string> file = new("FILE") { Description = "A file that 'cameras export' wrote, or the text that was read from the code of a pocket card." };
        Option<string?> name = new("--name") { Description = "Keep it under this name instead of the one in the file.", HelpName = "NAME" };
        Verb verb = new("import", "Keeps a camera from a file; what is kept already stays.",
            "leafstop cameras import body-a.json", "leafstop cameras import body-a.json --name \"Borrowed body\"", "leafstop cameras import card.txt")
        {
            file, name, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => Told(() =>
        {
            string path = call.GetRequiredValue(file);
            KeptCamera camera = Read(path, say);
            KeepOutcome kept = Store(call, say).Keep(call.GetValue(name) ?? camera.Name, camera);
            if (call.GetValue(say.JsonOption))
                say.Out.Write(CameraText.OutcomeJson(kept));
            else if (!call.GetValue(say.QuietOption))
                say.Out.Write(camera.Newest is null ? CameraText.CardOutcome(kept) : CameraText.Outcome(kept));
        }));
        return verb;
    }

    private static Argument<string> Name() => new("NAME") { Description = "Name of the camera; case and outer spaces do not matter." };

    private static CameraStore Store(ParseResult call, Surroundings say) => new(new DataFile(say.DataFolder(call)));

    private static KeptCamera Find(ParseResult call, Argument<string> name, Surroundings say)
    {
        string wanted = call.GetRequiredValue(name);
        CameraStore store = Store(call, say);
        if (store.Find(wanted) is { } camera)
            return camera;
        string[] known = [.. store.List().Select(c => $"'{c.Name}'")];
        throw Refusal.NoAnswer(known.Length == 0
            ? $"no camera is kept yet, so '{wanted}' is not: measure one with leafstop measure DIR --save \"{wanted}\"."
            : $"no camera '{wanted}' is kept. There is {string.Join(", ", known)}.");
    }

    private static KeptCamera Read(string path, Surroundings say)
    {
        try
        {
            FileInfo file = new(path);
            if (!file.Exists)
                throw Refusal.WrongCall($"There is no file '{path}'.");
            if (file.Length > CameraFile.LargestBytes)
                throw Refusal.NoAnswer($"{path} is too large to be a camera file.");
            string text = File.ReadAllText(path);
            if (!CardText.IsMeant(text))
                return CameraFile.Read(text);
            CardText card = CardText.Parse(text);
            return new KeptCamera(card.Name, []) { Cards = [new KeptCard(DateTimeOffset.FromUnixTimeSeconds(say.Clock.GetUtcNow().ToUnixTimeSeconds()), card)] };
        }
        catch (FormatException wrong)
        {
            throw Refusal.NoAnswer($"{path}: {wrong.Message}");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw Refusal.NoAnswer($"{path} cannot be read ({error.Message.TrimEnd('.')}).");
        }
    }

    /// <summary>Does it; a name that cannot be used is told in its own sentence.</summary>
    internal static int Told(Action doing) => Refusal.Told(() =>
    {
        doing();
        return ExitCode.Done;
    });
}
