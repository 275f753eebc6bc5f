using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop cameras forget: removes a kept camera, after saying what goes and asking for a clear yes.</summary>
internal static class CamerasForget
{
    public static Verb Build(Surroundings say, Func<ParseResult, CameraStore> open, Func<ParseResult, Argument<string>, KeptCamera> find)
    {
        Argument<string> name = new("NAME") { Description = "Name of the camera; case and outer spaces do not matter." };
        Option<bool> yes = new("--yes") { Description = "Remove it without asking." };
        Option<string?> export = new("--export") { Description = "Write it to FILE first; 'cameras import FILE' brings it back.", HelpName = "FILE" };
        Verb verb = new("forget", "Removes a camera with its history, after asking.",
            "leafstop cameras forget \"Body A\"",
            "leafstop cameras forget \"Body A\" --export body-a.json --yes")
        {
            name, yes, export, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => CamerasVerb.Told(() =>
        {
            KeptCamera camera = find(call, name);
            string? file = call.GetValue(export);
            if (file is not null)
                ResultFile.CheckPlace(file, mayReplace: false);
            if (!call.GetValue(yes))
                Ask(say, camera, file);
            if (file is not null)
                ResultFile.Write(file, CameraFile.Write(camera), mayReplace: false);
            KeptCamera? gone = open(call).Forget(camera.Name);
            if (call.GetValue(say.JsonOption))
                say.Out.Write(Json(camera, gone, file));
            else if (!call.GetValue(say.QuietOption))
                say.Out.WriteLine($"Forgot '{camera.Name}' ({CameraText.Extent(camera)}). {(file is null ? "Nothing of it is kept." : $"leafstop cameras import \"{OneLine.Of(file)}\" brings it back.")}");
        }));
        return verb;
    }

    private static void Ask(Surroundings say, KeptCamera camera, string? file)
    {
        string what = $"'{camera.Name}' would be removed with its history: {CameraText.Extent(camera)}.";
        string copy = file is null ? $" To be able to bring it back, add --export FILE, or first: leafstop cameras export \"{camera.Name}\" FILE." : "";
        if (say.In is null)
            throw Refusal.WrongCall($"{what} Nothing was removed: add --yes to forget it.{copy}");
        say.Error.WriteLine($"{what}{copy}");
        say.Error.Write("Type its name to forget it, anything else keeps it: ");
        string answer = (say.In.ReadLine() ?? "").Trim();
        if (!string.Equals(answer, camera.Name, StringComparison.OrdinalIgnoreCase))
            throw Refusal.WrongCall($"'{camera.Name}' is still kept; nothing was removed.");
    }

    private static string Json(KeptCamera camera, KeptCamera? gone, string? file) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("name", camera.Name);
        json.WriteNumber("removed", gone?.Measurements.Length ?? 0);
        json.WriteString("exportedTo", file);
        json.WriteEndObject();
    });
}
