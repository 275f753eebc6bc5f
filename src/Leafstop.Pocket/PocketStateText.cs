using Leafstop.Core.Motion;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket;

/// <summary>The state as JSON, for the browser's store. What cannot be read is as new: a page must open with whatever an older one left.</summary>
internal static class PocketStateText
{
    // Milliseconds of 1970 that the platform's calendar still knows: the end of 9999, less a day for the zone.
    private const double LatestTime = 253_402_214_400_000;

    public static string Write(PocketState s)
    {
        JsonWriting json = new();
        json.Open('{').Number("v", 1).Text("theme", s.Sun ? "sun" : "night").Text("hand", s.LeftHand ? "left" : "right").Truth("dim", s.Dim).Truth("vibrate", s.Vibrate)
            .Text("screen", s.Screen).Text("camera", s.Camera).Text("limits", s.Limits).Text("place", s.Place).Text("leaves", s.Leaves).Text("trial", s.Trial).Text("card", s.Card)
            .Text("site", NameOf(s.Site)).Truth("polariser", s.Polariser).Truth("depthOn", s.DepthOn).Truth("waterOn", s.WaterOn);
        foreach ((string name, double value) in Numbers(s))
            json.Number(name, value);
        json.Optional("light", s.Light).Optional("foam", s.Foam).Optional("printWidth", s.PrintWidth).Optional("printDistance", s.PrintDistance)
            .Optional("ownClean", s.OwnClean).Optional("ownStretch", s.OwnStretch).Optional("leaveAt", s.LeaveAt).Open('[', "readings");
        foreach ((double at, double ev) in s.Readings)
            json.Number("", at).Number("", ev);
        json.Close(']').Open('[', "ticks");
        string[] ticks = [.. s.Ticks];
        Array.Sort(ticks, StringComparer.Ordinal);
        foreach (string tick in ticks)
            json.Text("", tick);
        json.Close(']');
        if (s.Before is { } before)
        {
            json.Text("tried", s.Tried).Text("triedCost", s.TriedCost).Open('{', "before").Number("aperture", before.Aperture).Number("shutter", before.Shutter)
                .Optional("light", before.Light).Truth("polariser", before.Polariser).Optional("printWidth", before.PrintWidth).Optional("printDistance", before.PrintDistance)
                .Number("frames", before.Frames).Close('}');
        }
        return json.Close('}').ToString();
    }

    public static PocketState Read(string text)
    {
        PocketState s = new();
        if (string.IsNullOrWhiteSpace(text) || text.Length > 100_000)
            return s;
        if (JsonReading.Object(text) is { } members)
            Fill(s, new Entry(members));
        return s;
    }

    private static (string Name, double Value)[] Numbers(PocketState s) =>
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
        s.Site = SiteOf(e.Text("site"));
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
        s.Far = e.Within("far", 10, double.PositiveInfinity) is { } far and <= 1e9 ? far : fresh.Far;
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
        if (s.OwnStretch < s.OwnClean)
            s.OwnStretch = s.OwnClean;
        s.LeaveAt = e.Within("leaveAt", 0, LatestTime);
        s.Card = e.Text("card");
        s.OwnBase = e.Within("ownBase", 1, 100_000) ?? 100;
        s.OwnPrint = e.Within("ownPrint", 10, 100_000) ?? fresh.OwnPrint;
        s.OwnDistance = e.Within("ownDistance", 10, 100_000) ?? fresh.OwnDistance;
        double[] readings = [.. e.Numbers("readings").Take(2 * PocketPage.MostReadings)];
        for (int i = 0; i + 1 < readings.Length; i += 2)
        {
            if (readings[i] is < 0 or > LatestTime || (s.Readings.Count > 0 && readings[i] - s.Readings[^1].At < LightTrend.ShortestApart.TotalMilliseconds))
                continue;
            s.Readings.Add((readings[i], Math.Clamp(readings[i + 1], -20, 30)));
        }
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

    private static string NameOf(WindSite site) => site switch { WindSite.Open => "Open", WindSite.Floor => "Floor", _ => "Stand" };

    private static WindSite SiteOf(string name) => name switch { "Open" => WindSite.Open, "Floor" => WindSite.Floor, _ => WindSite.Stand };
}
