using System.Globalization;
using System.Text;
using System.Text.Json;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Verbs;

/// <summary>The two scenes of the demo, answered for the invented Body A with its invented limits.</summary>
internal static class DemoScenes
{
    private static readonly Iso BaseIso = Iso.FromSpeed(100);
    private static readonly Iso Clean = Iso.FromSpeed(800);
    private static readonly Iso Stretch = Iso.FromSpeed(3200);

    private static readonly (string Place, string Aperture, string Shutter, string Metered)[] Scenes =
    [
        ("Dimble Spout", "f/11", "1/4", "6 2/3"),
        ("Brackenhush Wood", "f/8", "1/60", "9"),
    ];

    /// <summary>Both answers in words.</summary>
    public static string Text()
    {
        StringBuilder text = new();
        foreach ((string place, string aperture, string shutter, string metered) in Scenes)
        {
            GapPlan plan = Plan(aperture, shutter, metered);
            text.AppendLine(CultureInfo.InvariantCulture, $"{place}: ISO {plan.IsoDial.ToDisplay()}, {Verdict(plan)}.");
            text.AppendLine(CultureInfo.InvariantCulture,
                $"  {aperture} at {shutter} s; the meter sees EV {metered} through the polariser: {Stopped(plan.Gap)} under at ISO {BaseIso.ToDisplay()}. (worked out)");
        }
        text.AppendLine("Both against clean 800 and stretch 3200 for a print 60 cm wide seen from 60 cm: invented demo data,");
        text.AppendLine("as Body A is. Yours come from your own bench and your own eye.");
        return text.ToString();
    }

    /// <summary>Both answers as JSON, as the members of an object.</summary>
    public static void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject("limits");
        json.WriteNumber("cleanIso", Clean.Speed);
        json.WriteNumber("stretchIso", Stretch.Speed);
        json.WriteNumber("printWidthMm", 600);
        json.WriteNumber("viewingDistanceMm", 600);
        json.WriteString("how", "inventedDemoData");
        json.WriteEndObject();
        json.WriteStartArray("scenes");
        foreach ((string place, string aperture, string shutter, string metered) in Scenes)
        {
            GapPlan plan = Plan(aperture, shutter, metered);
            json.WriteStartObject();
            json.WriteString("place", place);
            json.WriteStartObject("exposure");
            json.WriteString("aperture", aperture);
            json.WriteNumber("shutterSeconds", ShutterTime.Parse(shutter).Seconds);
            json.WriteNumber("isoExact", plan.IsoExact.Speed);
            json.WriteNumber("isoDial", plan.IsoDial.Speed);
            json.WriteEndObject();
            json.WriteNumber("gapStops", plan.Gap.Value);
            json.WriteStartObject("spare");
            json.WriteNumber("cleanStops", plan.SpareToClean.Value);
            json.WriteNumber("stretchStops", plan.SpareToStretch.Value);
            json.WriteEndObject();
            json.WriteString("verdict", JsonNamingPolicy.CamelCase.ConvertName(plan.Verdict.ToString()));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static GapPlan Plan(string aperture, string shutter, string metered) => GapPlan.Close(
        BaseIso,
        GapPlan.GapOf(FNumber.Parse(aperture), ShutterTime.Parse(shutter), ExposureValue.Parse(metered), BaseIso),
        Clean,
        Stretch);

    private static string Stopped(Stops stops) => $"{stops.ToDisplay()} {(Math.Abs(stops.Value) > 1 + Stops.Hair ? "stops" : "stop")}";

    private static string Verdict(GapPlan plan) => plan.Verdict switch
    {
        GapVerdict.Clean when plan.SpareToClean.NearestThird().Value == 0 => "on the clean limit, nothing to spare",
        GapVerdict.Clean => $"inside clean, {Stopped(plan.SpareToClean)} to spare",
        GapVerdict.Stretch => $"past clean by {Stopped(-plan.SpareToClean)}, {Stopped(plan.SpareToStretch)} to the stretch limit",
        _ => $"past stretch by {Stopped(-plan.SpareToStretch)}",
    };
}
