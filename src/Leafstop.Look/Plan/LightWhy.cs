using Leafstop.Core.Light;
using Leafstop.Core.Quantities;

namespace Leafstop.Look.Plan;

/// <summary>Formula, source and inputs of the light of a day, one sentence each.</summary>
public static class LightWhy
{
    /// <summary>The sentences, in the order of the work.</summary>
    public static IEnumerable<string> Of(LightAnswer answer, LightWords words)
    {
        LightEstimate row = answer.Moment ?? answer.Rows.MaxBy(r => r.Light)!;
        SkyConditions sky = answer.Conditions;
        double deltaT = TerrestrialTime.DeltaTSeconds(answer.Day.Start);
        yield return $"Sun: solar position algorithm (Reda and Andreas), parallax in, heights without air, good to 0.01°; clock of the heavens ahead by {Figures.Fixed(deltaT, 0)} s. (worked out)";
        yield return $"Sunrise and sunset: the sun's centre at {Figures.Fixed(sky.SkyLine.SunriseAltitude.Degrees, 3)}° (34′ of refraction, 16′ of half-width{(sky.SkyLine.EyeHeightMetres > 0 ? $", {Figures.Fixed(sky.SkyLine.Dip.Arcminutes, 1)}′ of dip" : "")}); twilights at −6°, −12° and −18°. Real air moves sunrise by a minute and more.";
        if (sky.SkyLine.RidgeSunAltitude is { } ridge)
            yield return $"Ridge: seen at {Figures.Fixed(sky.SkyLine.Ridge!.Value.Degrees, 1)}° all round, the upper limb clears it with the centre at {Figures.Fixed(ridge.Degrees, 2)}° (ridge less refraction less half-width).";
        yield return $"Light at {words.Time(row.When)}: open and clear {Lux(row.Chain.OpenClear)} for a sun at {Figures.Fixed(row.Sun.Altitude.Degrees, 2)}° (polynomial of Circular 171, rows L-01 and L-02). (rule of thumb)";
        yield return $"× {Figures.Fixed(row.Chain.CloudFactor, 3)} for {sky.Cloud} (1 − 0.75 (N/8)^3.4, Kasten and Czeplak).";
        yield return $"Of that {Figures.Percent(row.Chain.SkyShare)} comes from the sky, × {Figures.Fixed(row.Chain.ViewShare, 3)} for the walls ({Land(sky.View)}); the rest straight from the sun, × {Figures.Fixed(row.Chain.DiscShare, 2)} of its disc.";
        yield return $"× {Figures.Fixed(row.Chain.CanopyShare, 3)} for the trees ({sky.Canopy.Source}).";
        yield return $"= {Lux(row.Illuminance)}; EV100 = log2(E · 100 / 250) = {Figures.Fixed(Leafstop.Core.Exposure.IncidentMeter.Usual.Reads(row.Illuminance).Value, 2)}.";
        if (row.Note is { } note)
            yield return $"Your note: {Figures.Fixed(note.Metered.Value, 2)} measured + {Figures.Fixed(note.FilterStops.Value, 2)} for the filter {(row.CarriedBy!.Value.Value < 0 ? "−" : "+")} {Figures.Fixed(Math.Abs(row.CarriedBy.Value.Value), 2)} by the model (its EV now less its EV then) = {Figures.Fixed(row.Light.Value, 2)}. It goes before the model.";
        if (answer.Wanted is { } wanted)
            yield return $"Light needed: EV100 {Figures.Fixed(wanted.Value, 2)} = log2(N² / t) − log2(ISO / 100) + filter.";
    }

    private static string Lux(Illuminance light) => $"{Figures.Significant(light.Lux)}{Figures.NoBreak}lx";

    private static string Land(SkyView view) => view.Shape switch
    {
        LandShape.Valley => $"valley of {Figures.Fixed(view.Wall.Degrees, 0)}°",
        LandShape.Basin => $"basin of {Figures.Fixed(view.Wall.Degrees, 0)}°",
        _ => "open land",
    };
}
