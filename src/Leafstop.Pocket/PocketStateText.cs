using System.Text;
using System.Text.Json;
using Leafstop.Core.Motion;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket;

/// <summary>The state as JSON, for the browser's store. What cannot be read is as new: a page must open with whatever an older one left.</summary>
internal static class PocketStateText
{
    public static void Write(Utf8JsonWriter json, PocketState s)
    {
        json.WriteStartObject();
        json.WriteNumber("v", 1);
        json.WriteString("theme", s.Sun ? "sun" : "night");
        json.WriteString("hand", s.LeftHand ? "left" : "right");
        json.WriteBoolean("dim", s.Dim);
        json.WriteBoolean("vibrate", s.Vibrate);
        json.WriteString("screen", s.Screen);
        json.WriteString("camera", s.Camera);
        json.WriteString("limits", s.Limits);
        json.WriteString("place", s.Place);
        json.WriteString("leaves", s.Leaves);
        json.WriteString("trial", s.Trial);
        json.WriteString("card", s.Card);
        json.WriteString("site", s.Site.ToString());
        json.WriteBoolean("polariser", s.Polariser);
        json.WriteBoolean("depthOn", s.DepthOn);
        json.WriteBoolean("waterOn", s.WaterOn);
        foreach ((string name, double value) in Numbers(s))
        {
            if (double.IsFinite(value))
                json.WriteNumber(name, value);
            else
                json.WriteString(name, "inf");
        }
        Optional(json, "light", s.Light);
        Optional(json, "foam", s.Foam);
        Optional(json, "printWidth", s.PrintWidth);
        Optional(json, "printDistance", s.PrintDistance);
        Optional(json, "ownClean", s.OwnClean);
        Optional(json, "ownStretch", s.OwnStretch);
        json.WriteStartArray("readings");
        foreach ((double at, double ev) in s.Readings)
        {
            json.WriteNumberValue(at);
            json.WriteNumberValue(ev);
        }
        json.WriteEndArray();
        json.WriteStartArray("ticks");
        foreach (string tick in s.Ticks.Order(StringComparer.Ordinal))
            json.WriteStringValue(tick);
        json.WriteEndArray();
        if (s.Before is { } before)
        {
            json.WriteString("tried", s.Tried);
            json.WriteString("triedCost", s.TriedCost);
            json.WriteStartObject("before");
            json.WriteNumber("aperture", before.Aperture);
            json.WriteNumber("shutter", before.Shutter);
            Optional(json, "light", before.Light);
            json.WriteBoolean("polariser", before.Polariser);
            Optional(json, "printWidth", before.PrintWidth);
            Optional(json, "printDistance", before.PrintDistance);
            json.WriteNumber("frames", before.Frames);
            json.WriteEndObject();
        }
        json.WriteEndObject();
    }

    public static PocketState Read(string text)
    {
        PocketState s = new();
        if (string.IsNullOrWhiteSpace(text) || text.Length > 100_000)
            return s;
        try
        {
            using var document = JsonDocument.Parse(Encoding.UTF8.GetBytes(text));
            if (document.RootElement.ValueKind == JsonValueKind.Object)
                Fill(s, new Entry(document.RootElement));
        }
        catch (JsonException)
        {
            return new PocketState();
        }
        return s;
    }

    private static IEnumerable<(string Name, double Value)> Numbers(PocketState s) =>
    [
        ("aperture", s.Aperture), ("shutter", s.Shutter), ("frames", s.Frames), ("focal", s.Focal), ("near", s.Near), ("far", s.Far), ("waterDistance", s.WaterDistance),
        ("waterSpeed", s.WaterSpeed), ("taste", s.Taste), ("smear", s.Smear), ("smearShutter", s.SmearShutter), ("force", s.Force), ("leafDistance", s.LeafDistance),
        ("secondShutter", s.SecondShutter), ("screenInches", s.ScreenInches), ("screenDistance", s.ScreenDistance), ("clicks", s.Clicks), ("ownBase", s.OwnBase),
        ("ownPrint", s.OwnPrint), ("ownDistance", s.OwnDistance),
    ];

    private static void Fill(PocketState s, Entry e)
    {
        PocketState fresh = new();
        s.Sun = e.Text("theme") == "sun";
        s.LeftHand = e.Text("hand") == "left";
        s.Dim = e.Truth("dim");
        s.Vibrate = e.Truth("vibrate");
        s.Screen = e.Text("screen") is { Length: > 0 } screen ? screen : "gap";
        s.Camera = e.Text("camera");
        s.Limits = e.Text("limits");
        s.Place = e.Text("place");
        s.Leaves = e.Text("leaves") is "trial" or "wind" ? e.Text("leaves") : "";
        s.Trial = new string([.. e.Text("trial").Where(c => c is 'k' or 'n').Take(10_000)]);
        s.Site = Enum.TryParse(e.Text("site"), out WindSite site) && Enum.IsDefined(site) ? site : fresh.Site;
        s.Polariser = e.Truth("polariser");
        s.DepthOn = e.Truth("depthOn");
        s.WaterOn = e.Truth("waterOn");
        s.Aperture = e.Within("aperture", 0.5, 256) ?? fresh.Aperture;
        s.Shutter = e.Within("shutter", 1e-5, 86400) ?? fresh.Shutter;
        s.Light = e.Within("light", -20, 30);
        s.Foam = e.Within("foam", -10, 10);
        s.PrintWidth = e.Within("printWidth", 10, 100_000);
        s.PrintDistance = e.Within("printDistance", 10, 100_000);
        s.Frames = (int)(e.Within("frames", 1, 1000) ?? 1);
        s.Focal = e.Within("focal", 1, 10_000) ?? fresh.Focal;
        s.Near = e.Within("near", 10, 1e9) ?? fresh.Near;
        s.Far = e.Within("far", 10, 1e9) ?? fresh.Far;
        s.WaterDistance = e.Within("waterDistance", 10, 1e9) ?? fresh.WaterDistance;
        s.WaterSpeed = e.Within("waterSpeed", 0.001, 60) ?? fresh.WaterSpeed;
        s.Taste = e.Within("taste", 0.01, 1000) ?? fresh.Taste;
        s.Smear = e.Within("smear", 0.001, 100) ?? fresh.Smear;
        s.SmearShutter = e.Within("smearShutter", 1e-5, 86400) ?? fresh.SmearShutter;
        s.Force = (int)(e.Within("force", 0, 6) ?? fresh.Force);
        s.LeafDistance = e.Within("leafDistance", 10, 1e9) ?? fresh.LeafDistance;
        s.SecondShutter = e.Within("secondShutter", 1e-5, 86400) ?? fresh.SecondShutter;
        s.ScreenInches = e.Within("screenInches", 1, 10) ?? fresh.ScreenInches;
        s.ScreenDistance = e.Within("screenDistance", 50, 2000) ?? fresh.ScreenDistance;
        s.Clicks = (int)(e.Within("clicks", 0, 50) ?? 0);
        s.OwnClean = e.Within("ownClean", 1, 1e7);
        s.OwnStretch = e.Within("ownStretch", 1, 1e7);
        s.Card = e.Text("card");
        s.OwnBase = e.Within("ownBase", 1, 100_000) ?? 100;
        s.OwnPrint = e.Within("ownPrint", 10, 100_000) ?? fresh.OwnPrint;
        s.OwnDistance = e.Within("ownDistance", 10, 100_000) ?? fresh.OwnDistance;
        double[] readings = [.. e.Numbers("readings").Take(2 * PocketPage.MostReadings)];
        for (int i = 0; i + 1 < readings.Length; i += 2)
            s.Readings.Add((readings[i], Math.Clamp(readings[i + 1], -20, 30)));
        foreach (string tick in e.Texts("ticks").Take(20))
            s.Ticks.Add(tick);
        if (e.Inner("before") is { } before)
        {
            (s.Tried, s.TriedCost) = (e.Text("tried"), e.Text("triedCost"));
            s.Before = new PocketBefore(
                before.Within("aperture", 0.5, 256) ?? s.Aperture, before.Within("shutter", 1e-5, 86400) ?? s.Shutter, before.Within("light", -20, 30), before.Truth("polariser"),
                before.Within("printWidth", 10, 100_000), before.Within("printDistance", 10, 100_000), (int)(before.Within("frames", 1, 1000) ?? 1));
        }
    }

    private static void Optional(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
            json.WriteNumber(name, number);
    }
}
