using Leafstop.Browser.Contracts;
using Leafstop.Core.Light;
using Leafstop.Look.Plan;
using Leafstop.Storage.Places;
using Leafstop.Web.Safety;
using NodaTime;

namespace Leafstop.Web.Features.Light;

/// <summary>The light of a place and a time, worked out as leafstop plan --light does.</summary>
internal static class LightRoutes
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/light", Tell)
        .WithTags("Light").WithName("tellLight").WithSummary("The light at a time and in the hours around it, by sun, sky and the place's own notes, or carried on from what a meter showed.").Produces<LightView>().Refuses(400, 404, 500);

    private static IResult Tell([AsParameters] LightQuery query, PlaceStore places)
    {
        WrittenQuery written = new(query);
        try
        {
            var asked = LightReading.Read(written, Find, SystemClock.Instance.GetCurrentInstant());
            string time = query.Light ?? throw written.Wrong("light: the time is missing: write it such as 18:10.");
            return Results.Ok(View(written, query.Ev is null ? asked : asked.Anchored(written, time), time));
        }
        catch (QueryRefusal refusal)
        {
            return PlainProblems.Of(refusal.Status, refusal.Message);
        }

        KnownPlace Find(string name) => LightReading.Told(written, () => places.Find(name))?.Known ?? throw new QueryRefusal(404, $"No place named \"{name}\" is kept: keep it first, or write where it is.");
    }

    private static LightView View(WrittenQuery written, LightReading asked, string time)
    {
        WorkedLight now = asked.At(written, time, withAhead: false);
        Instant when = asked.Moment(written, PlanNames.Light, time), from = when - Duration.FromMinutes(LightView.MinutesBefore), to = when + Duration.FromMinutes(LightView.MinutesAfter);
        LightCurve curve = LightReading.Told(written, () => new LightCurve(from, to, asked.Place, asked.Conditions, asked.Notes));
        LightEstimate[] rows = [.. curve.Table(Duration.FromMinutes(1))];
        LightAnswer answer = new()
        {
            Day = LightReading.Told(written, () => SunDay.Of(asked.Date, asked.Zone, asked.Place)),
            Kept = asked.Known?.Name,
            Conditions = asked.Conditions,
            Curve = curve,
            Moment = curve.At(when),
            Rows = rows,
            Wanted = null,
            Passes = [],
        };
        LightWords words = new(answer);
        return new LightView(
            when.InZone(asked.Zone).ToDateTimeOffset(), now.Open.Value, now.Uncertainty.Value, now.SunIsUp, now.Sentence, from.InZone(asked.Zone).ToDateTimeOffset(),
            [.. rows.Select(r => r.Light.Value)], [.. rows.Select(r => r.Uncertainty.Value)], asked.Metered?.OtherLight(asked.Place, asked.Conditions)?.Value, new LightWords(answer with { Moment = null }).Sentence, [.. LightWhy.Of(answer, words)]);
    }
}
