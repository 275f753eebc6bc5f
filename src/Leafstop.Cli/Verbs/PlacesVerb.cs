using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage;
using Leafstop.Storage.Places;
using NodaTime;
using NodaTime.Text;

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
            List(say), Add(say), Show(say), Remove(say), Note(say), Unnote(say), Export(say), say.JsonOption, say.QuietOption,
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
            SkyConditions around = LightCall.ReadSky(call);
            string zone = call.GetValue(LightOptions.Zone)
                ?? throw Refusal.WrongCall("Say whose clock counts with --zone, such as --zone Europe/London or --zone UTC+02:00.");
            KeptPlace place = new()
            {
                Name = Refusal.Told(() => PlaceStore.TidyName(call.GetRequiredValue(name))),
                Place = LightCall.ReadPlace(call),
                Zone = LightCall.ReadZone(call, zone).Id,
                Ridge = around.SkyLine.Ridge,
                Canopy = call.GetValue(LightOptions.Canopy)?.Trim(),
                View = around.View,
            };
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
            Said(call, say, $"'{place.Name}' is taken out{(place.Notes.Length == 0 ? "" : place.Notes.Length == 1 ? " with its light note" : $" with its {place.Notes.Length} light notes")}.");
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
            LightNote note = ReadNote(call, place);
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

    private static LightNote ReadNote(ParseResult call, KeptPlace place)
    {
        if (!ExposureValue.TryParse(call.GetRequiredValue(NoteEv), out ExposureValue metered, out string why))
            throw Refusal.WrongCall($"--ev: {why}");
        FilterSet filters = FilterSet.None;
        string filter = call.GetValue(NoteFilter)?.Trim() ?? "";
        if (filter.Length > 0 && !FilterSet.TryParse(filter, out filters, out why))
            throw Refusal.WrongCall($"--filter: {why}");
        string remark = call.GetValue(Remark)?.Trim() ?? "";
        if (remark.Length > PlaceStore.LongestText || remark.Any(char.IsControl))
            throw Refusal.WrongCall($"--remark: at most {PlaceStore.LongestText} characters, all of them visible.");
        CloudCover? cloud = call.GetValue(LightOptions.Okta) is { } okta ? Refusal.Told(() => CloudCover.FromOkta(LightCall.Number(call, "--okta", okta))) : null;
        return new LightNote(ReadTime(call, call.GetRequiredValue(NoteTime)!, place), metered, cloud, filters.Total, filters.IsEmpty ? "" : filter, remark);
    }

    private static Instant ReadTime(ParseResult call, string written, KeptPlace place)
    {
        // Without fractions of a second: that is how a note is kept.
        foreach (string pattern in (string[])["uuuu-MM-dd HH:mm", "uuuu-MM-dd HH:mm:ss"])
        {
            ParseResult<LocalDateTime> local = LocalDateTimePattern.CreateWithInvariantCulture(pattern).Parse(written.Trim().Replace('T', ' '));
            if (local.Success)
                return Reached(LightCall.OnTheClock(call, "--at", local.Value, LightCall.ReadZone(call, place.Zone), "write it with its offset, such as 2026-10-25T01:30:00+01:00"), written);
        }
        ParseResult<OffsetDateTime> whole = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-ddTHH:mm:sso<G>").Parse(written.Trim());
        return whole.Success
            ? Reached(whole.Value.ToInstant(), written)
            : throw Refusal.WrongCall($"--at: '{written}' is no time: write date and time such as \"2026-10-17 08:40\".");
    }

    private static Instant Reached(Instant when, string written) => Reach.Holds(when.InUtc().Date)
        ? when
        : throw Refusal.WrongCall($"--at: {written} is out of reach: the sun is worked out for the years {Reach.FirstYear} to {Reach.LastYear}.");

    private static Argument<string> Name() => new("NAME") { Description = "Name of the place; case and outer spaces do not matter." };

    private static PlaceStore Store(ParseResult call, Surroundings say) => new(new DataFile(say.DataFolder(call)));

    private static void Said(ParseResult call, Surroundings say, string sentence)
    {
        if (!call.GetValue(say.QuietOption))
            say.Error.WriteLine(sentence);
    }
}
