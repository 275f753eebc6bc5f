using System.CommandLine;
using Leafstop.Cli.CommandLine;

namespace Leafstop.Cli.Verbs;

/// <summary>The light of a plan that nobody has metered yet, by the options that leafstop light has.</summary>
internal static class PlanLight
{
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
    public static WorkedLight Read(ParseResult call, string time, Surroundings say)
    {
        var asked = LightCall.Read(call, say);
        return asked.Asked.At(asked.Options, time);
    }
}
