using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Light;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Cli.Verbs;

/// <summary>The light of a plan that nobody has metered yet: from the sun, the sky and the place's own notes.</summary>
/// <param name="Open">EV100 without any filter.</param>
/// <param name="Uncertainty">How far off it may be.</param>
/// <param name="SunIsUp">True when the sun stands over the horizon.</param>
/// <param name="Ahead">The next three hours, a minute apart.</param>
/// <param name="Sentence">What it is and how it is known.</param>
internal sealed record PlanLight(ExposureValue Open, Stops Uncertainty, bool SunIsUp, ImmutableArray<LightAhead> Ahead, string Sentence)
{
    private static readonly Duration Span = Duration.FromHours(3);
    private static readonly Duration Step = Duration.FromMinutes(1);

    /// <summary>The options that say where, when and under what sky; the same as those of leafstop light.</summary>
    public static readonly Option[] Options =
    [
        LightOptions.PlaceName, LightOptions.Latitude, LightOptions.Longitude, LightOptions.Elevation, LightOptions.Date, LightOptions.Zone,
        LightOptions.Okta, LightOptions.Canopy, LightOptions.Ridge, LightOptions.Valley, LightOptions.Basin,
    ];

    /// <summary>Reads the call and works the light out.</summary>
    /// <param name="call">The call.</param>
    /// <param name="time">The local time, such as 07:40.</param>
    /// <param name="say">For the data folder and the clock.</param>
    /// <exception cref="Refusal">Something is missing or unreadable, or there is no light to plan with.</exception>
    public static PlanLight Read(ParseResult call, string time, Surroundings say)
    {
        var asked = LightCall.Read(call, say);
        Instant when = asked.Moment("--light", time);
        LightCurve curve = LightCall.Told(() => new LightCurve(when, when + Span, asked.Place, asked.Conditions, asked.Notes));
        LightEstimate now = curve.At(when);
        ImmutableArray<LightAhead> ahead =
        [
            .. curve.Table(Step).Skip(1).Select(e => new LightAhead(e.When.InZone(asked.Zone).ToDateTimeOffset(), e.Light - now.Light)),
        ];
        string source = now.How == HowKnown.RuleOfThumb ? "by the model of sun, cloud and trees (rule of thumb)" : "from your own light note, carried to this time (worked out)";
        string sentence = string.Create(
            CultureInfo.InvariantCulture,
            $"At {when.InZone(asked.Zone).ToString("HH:mm", CultureInfo.InvariantCulture)} the light is EV {now.Light.ToDisplay()}, the sun at {now.Sun.Altitude.Degrees:0.0}\u00B0, {source}; filters that will be on are taken off once.");
        return new PlanLight(now.Light, now.Uncertainty, now.Sun.Altitude.Degrees > 0, ahead, sentence.Replace('-', '\u2212'));
    }
}
