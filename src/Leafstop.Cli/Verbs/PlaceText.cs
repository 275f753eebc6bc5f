using System.Globalization;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage.Places;
using NodaTime;

namespace Leafstop.Cli.Verbs;

/// <summary>Kept places in words and as JSON.</summary>
internal static class PlaceText
{
    public static string List(IReadOnlyList<KeptPlace> places)
    {
        if (places.Count == 0)
            return "No place is kept yet. Keep one: leafstop places add NAME --lat DEGREES --lon DEGREES --zone ZONE\n";
        int width = places.Max(p => p.Name.Length) + 2;
        StringBuilder text = new();
        foreach (KeptPlace place in places)
            text.AppendLine(CultureInfo.InvariantCulture, $"{place.Name.PadRight(width)}{Notes(place.Notes.Length)}, {place.Zone}");
        return text.ToString();
    }

    public static string ListJson(IReadOnlyList<KeptPlace> places) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteStartArray("places");
        foreach (KeptPlace place in places)
        {
            json.WriteStartObject();
            json.WriteString("name", place.Name);
            json.WriteString("zone", place.Zone);
            json.WriteNumber("notes", place.Notes.Length);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    });

    public static string Show(KeptPlace place)
    {
        StringBuilder text = new();
        text.AppendLine(place.Name);
        text.AppendLine(CultureInfo.InvariantCulture,
            $"Latitude {Written(place.Place.Latitude)}, longitude {Written(place.Place.Longitude)}, {place.Place.ElevationMetres:0.#} m above the sea, {place.Zone}.");
        List<string> around = [];
        if (place.Ridge is { } ridge)
            around.Add($"ridge at {Written(ridge)}");
        if (place.View.Shape != LandShape.Open)
            around.Add($"{(place.View.Shape == LandShape.Valley ? "valley" : "basin")} with walls of {Written(place.View.Wall)}");
        if (place.Canopy is { } canopy)
            around.Add($"trees: {canopy}");
        if (around.Count > 0)
            text.AppendLine(CultureInfo.InvariantCulture, $"Around it: {string.Join(", ", around)}.");
        text.AppendLine();
        if (place.Notes.IsEmpty)
            text.AppendLine("No light note yet: leafstop places note NAME --at TIME --ev EV --okta EIGHTHS");
        DateTimeZone zone = ZoneName.TryParse(place.Zone, out DateTimeZone known, out _) ? known : DateTimeZone.Utc;
        foreach (NumberedNote numbered in place.Notes)
        {
            LightNote note = numbered.Note;
            string sky = note.Cloud is { } cloud ? cloud.ToString() : "sky not noted";
            string filter = note.FilterName.Length > 0 ? $", through {note.FilterName} (without it EV {note.Light.ToDisplay()})" : "";
            string remark = note.Remark.Length > 0 ? $". {note.Remark}" : "";
            text.AppendLine(CultureInfo.InvariantCulture, $"  {numbered.Number,3}  {ZoneName.Write(note.When, zone)[..16].Replace('T', ' ')}  EV {note.Metered.ToDisplay()} measured, {sky}{filter}{remark}");
        }
        return BenchText.Plain(OneLinePerLine(text.ToString()));
    }

    private static string OneLinePerLine(string text) => string.Join('\n', text.Split('\n').Select(OneLine.Of));

    private static string Notes(int count) => count == 1 ? "1 light note" : $"{count.ToString(CultureInfo.InvariantCulture)} light notes";

    private static string Written(Angle angle) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(angle.Degrees, 6):0.######}°");
}
