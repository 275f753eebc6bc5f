using System.Globalization;
using System.Text;
using System.Text.Json;
using Leafstop.Cli.Telling;
using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Verbs;

/// <summary>The two scenes of the demo, answered for the invented Body A with its invented limits.</summary>
internal static class DemoScenes
{
    private static readonly NoiseLimits Limits = NoiseLimits.Of(
        Iso.FromSpeed(800), Iso.FromSpeed(3200),
        new LimitTags("Body A", new PrintCondition(600, 600), ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Invented);

    private static readonly (string Place, string Aperture, string Shutter, string Metered)[] Scenes =
    [
        ("Dimble Spout", "f/11", "1/4", "6 2/3"),
        ("Brackenhush Wood", "f/8", "1/60", "9"),
    ];

    /// <summary>Both answers in words.</summary>
    public static string Text()
    {
        StringBuilder text = new();
        foreach (var scene in Scenes)
        {
            ExposurePlan plan = Plan(scene);
            text.AppendLine(CultureInfo.InvariantCulture, $"{scene.Place}: ISO {plan.Iso.Dial.ToDisplay()}, {PlanSentences.Place(plan.Answer, plan.Limits)}.");
            text.AppendLine(CultureInfo.InvariantCulture,
                $"  {scene.Aperture} at {scene.Shutter} s; the meter sees EV {scene.Metered} through the polariser: {PlanSentences.StopsWords(plan.Answer.Gap)} under at ISO {plan.Scene.BaseIso.ToDisplay()}. (worked out)");
        }
        text.AppendLine("Both against clean 800 and stretch 3200 for a print 60 cm wide seen from 60 cm: invented demo data,");
        text.AppendLine("as Body A is. Yours come from your own bench and your own eye.");
        return text.ToString();
    }

    /// <summary>Both answers as JSON, as the members of an object; a scene has the shape of leafstop plan.</summary>
    public static void Write(Utf8JsonWriter json)
    {
        json.WriteStartArray("scenes");
        foreach (var scene in Scenes)
        {
            json.WriteStartObject();
            json.WriteString("place", scene.Place);
            PlanJson.WriteMembers(json, Plan(scene));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static ExposurePlan Plan((string Place, string Aperture, string Shutter, string Metered) scene) => Planner.Plan(new Scene
    {
        Aperture = FNumber.Parse(scene.Aperture),
        Shutter = ShutterTime.Parse(scene.Shutter),
        Metered = ExposureValue.Parse(scene.Metered),
        BaseIso = Iso.FromSpeed(100),
        FiltersOn = new FilterSet([Filter.Polariser(Filter.UsualPolariser)]),
        Limits = Limits,
    });
}
