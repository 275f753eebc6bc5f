using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage;
using Leafstop.Storage.Places;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop places: keeps places and the light that was metered there.</summary>
internal static class PlacesVerb
{
    private static readonly Option<string?> NoteTime = new("--at") { Description = "When it was metered, by the place's clock: \"2026-10-17 08:40\".", HelpName = "TIME", Required = true };
    private static readonly Option<string?> NoteEv = new("--ev") { Description = "What the meter showed, as EV100, such as \"6 2/3\".", HelpName = "EV", Required = true };
    private static readonly Option<string?> NoteFilter = new("--filter") { Description = "The filter that was on, such as \"polariser 1.5\"; the reading is kept as it was.", HelpName = "FILTER" };
    private static readonly Option<string?> Remark = new("--remark") { Description = "Your own words.", HelpName = "TEXT" };
    private static readonly Option<bool> WithLocation = new("--with-location") { Description = "Write latitude and longitude too; they are left out when not asked for." };

    public static Command Build(Surroundings say)
    {
        Verb verb = new("places", "Keeps places and the light that you metered there; 'leafstop light --place NAME' uses them.",
            "leafstop places",
            "leafstop places add \"Dimble Spout\" --lat 50.1 --lon -3.2 --zone Europe/London --ridge 15",
            "leafstop places note \"Dimble Spout\" --at \"2026-10-17 08:40\" --ev \"6 2/3\" --okta 8 --filter \"polariser 1.5\"",
            "leafstop places export \"Dimble Spout\" spout.json")
        {
            List(say), Add(say), Show(say), Remove(say), Note(say), Unnote(say), Export(say), Import(say), say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => WriteList(call, say));
        return verb;
    }

    private static Verb List(Surroundings say)
    {
        Verb verb = new("list", "Lists the places that were kept.", "leafstop places list", "leafstop places list --json") { say.JsonOption, say.QuietOption };
        verb.SetAction(call => WriteList(call, say));
        return verb;
    }

    private static int WriteList(ParseResult call, Surroundings say)
    {
        KeptPlace[] places = [.. Refusal.Told(() => Store(call, say).List())];
        say.Out.Write(call.GetValue(say.JsonOption) ? PlaceText.ListJson(places) : PlaceText.List(places));
        return ExitCode.Done;
    }

    private static Verb Add(Surroundings say)
    {
        Argument<string> name = Name();
        Verb verb = new("add", "Keeps a place.", "leafstop places add \"Dimble Spout\" --lat 50.1 --lon -3.2 --zone Europe/London --ridge 15 --canopy 0.5")
        {
            name, LightOptions.Latitude, LightOptions.Longitude, LightOptions.Elevation, LightOptions.Zone, LightOptions.Ridge, LightOptions.Canopy,
            LightOptions.Valley, LightOptions.Basin, say.QuietOption,
        };
        verb.SetAction(call =>
        {
            string tidy = Refusal.Told(() => PlaceStore.TidyName(call.GetRequiredValue(name)));
            KeptPlace place = KeptPlace.Of(PlaceReading.Read(new WrittenOptions(call, NumberReading.Marks), tidy));
            Refusal.Told(() =>
            {
                Store(call, say).Add(place);
                return true;
            });
            Said(call, say, $"Kept '{place.Name}'.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Show(Surroundings say)
    {
        Argument<string> name = Name();
        Verb verb = new("show", "Shows a place and its light notes.", "leafstop places show \"Dimble Spout\"") { name, say.JsonOption, say.QuietOption };
        verb.SetAction(call =>
        {
            KeptPlace place = LightCall.Find(call.GetRequiredValue(name), Store(call, say));
            say.Out.Write(call.GetValue(say.JsonOption) ? JsonText.Of(json => PlaceFile.Write(json, place, withLocation: true)) : PlaceText.Show(place));
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Remove(Surroundings say)
    {
        Argument<string> name = Name();
        Verb verb = new("remove", "Takes a place and its light notes out.", "leafstop places remove \"Dimble Spout\"") { name, say.QuietOption };
        verb.SetAction(call =>
        {
            PlaceStore store = Store(call, say);
            KeptPlace place = LightCall.Find(call.GetRequiredValue(name), store);
            Refusal.Told(() => store.Remove(place.Name));
            Said(call, say, $"'{place.Name}' is taken out{WithNotes(place)}.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Note(Surroundings say)
    {
        Argument<string> name = Name();
        Verb verb = new("note", "Adds a light note: what the meter showed at a place, when, under what sky.",
            "leafstop places note \"Dimble Spout\" --at \"2026-10-17 08:40\" --ev \"6 2/3\" --okta 8 --filter \"polariser 1.5\"")
        {
            name, NoteTime, NoteEv, LightOptions.Okta, NoteFilter, Remark, say.QuietOption,
        };
        verb.SetAction(call =>
        {
            PlaceStore store = Store(call, say);
            KeptPlace place = LightCall.Find(call.GetRequiredValue(name), store);
            LightNote note = PlaceReading.ReadNote(new WrittenOptions(call, NumberReading.Marks), place.Zone, PlaceStore.LongestText);
            int? number = Refusal.Told(() => store.AddNote(place.Name, note));
            Said(call, say, $"Kept as note {number} of '{place.Name}'.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Unnote(Surroundings say)
    {
        Argument<string> name = Name();
        Argument<string> number = new("NUMBER") { Description = "The note's number, as 'places show' tells it." };
        Verb verb = new("unnote", "Takes one light note out.", "leafstop places unnote \"Dimble Spout\" 2") { name, number, say.QuietOption };
        verb.SetAction(call =>
        {
            PlaceStore store = Store(call, say);
            KeptPlace place = LightCall.Find(call.GetRequiredValue(name), store);
            string written = call.GetRequiredValue(number);
            if (!int.TryParse(written, NumberStyles.None, CultureInfo.InvariantCulture, out int wanted))
                throw Refusal.WrongCall($"'{written}' is no number of a note: take one that leafstop places show \"{place.Name}\" tells.");
            if (!Refusal.Told(() => store.RemoveNote(place.Name, wanted)))
                throw Refusal.NoAnswer($"'{place.Name}' has no note {wanted}: see leafstop places show \"{place.Name}\".");
            Said(call, say, $"Note {wanted} of '{place.Name}' is taken out.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Export(Surroundings say)
    {
        Argument<string> name = Name();
        Argument<string?> file = new("FILE") { Description = "File to write; to the terminal when left out.", Arity = ArgumentArity.ZeroOrOne };
        Verb verb = new("export", "Writes a place with its light notes as JSON, without its whereabouts unless you ask for them.",
            "leafstop places export \"Dimble Spout\" spout.json", "leafstop places export \"Dimble Spout\" --with-location")
        {
            name, file, WithLocation, say.QuietOption,
        };
        verb.SetAction(call =>
        {
            KeptPlace place = LightCall.Find(call.GetRequiredValue(name), Store(call, say));
            bool whole = call.GetValue(WithLocation);
            string text = JsonText.Of(json => PlaceFile.Write(json, place, whole));
            if (call.GetValue(file) is not { } path)
            {
                say.Out.Write(text);
                return ExitCode.Done;
            }
            ResultFile.Write(path, text, mayReplace: false);
            Said(call, say, whole ? $"Wrote {path}." : $"Wrote {path}, without latitude and longitude.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static Verb Import(Surroundings say)
    {
        Argument<string> file = new("FILE") { Description = "A file that 'places export --with-location' wrote." };
        Verb verb = new("import", "Keeps a place with its light notes from a file.", "leafstop places import spout.json") { file, say.QuietOption };
        verb.SetAction(call =>
        {
            KeptPlace place = ReadFile(call.GetRequiredValue(file));
            Refusal.Told(() =>
            {
                Store(call, say).Add(place);
                return true;
            });
            Said(call, say, $"Kept '{place.Name}'{WithNotes(place)}.");
            return ExitCode.Done;
        });
        return verb;
    }

    private static KeptPlace ReadFile(string path)
    {
        try
        {
            FileInfo file = new(path);
            if (!file.Exists)
                throw Refusal.WrongCall($"There is no file '{path}'.");
            if (file.Length > PlaceFile.LargestBytes)
                throw Refusal.NoAnswer($"{path} is too large to be a place.");
            return PlaceFile.Read(File.ReadAllText(path));
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

    private static Argument<string> Name() => new("NAME") { Description = "Name of the place; case and outer spaces do not matter." };

    private static string WithNotes(KeptPlace place) => place.Notes.Length == 0 ? "" : place.Notes.Length == 1 ? " with its light note" : $" with its {place.Notes.Length} light notes";

    private static PlaceStore Store(ParseResult call, Surroundings say) => new(new DataFile(say.DataFolder(call)));

    private static void Said(ParseResult call, Surroundings say, string sentence)
    {
        if (!call.GetValue(say.QuietOption))
            say.Error.WriteLine(sentence);
    }
}
