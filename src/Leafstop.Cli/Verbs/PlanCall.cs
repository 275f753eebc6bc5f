using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Verbs;

/// <summary>What was asked of leafstop plan: its options, the kept cameras, and the light of a time.</summary>
/// <param name="call">The call.</param>
/// <param name="say">For the data folder and the clock.</param>
internal sealed class PlanCall(ParseResult call, Surroundings say) : IPlanSources
{
    /// <summary>Reads the call.</summary>
    /// <exception cref="Refusal">Something is missing, unreadable or out of range.</exception>
    public static PlanReading Read(ParseResult call, Surroundings say) => PlanReading.Read(new WrittenOptions(call, Numbers(call)), new PlanCall(call, say));

    /// <summary>Marks or literal numbers.</summary>
    public static NumberReading Numbers(ParseResult call) => call.GetValue(PlanOptions.Literal) ? NumberReading.Literal : NumberReading.Marks;

    /// <inheritdoc/>
    public (PlanCamera? Camera, string? Remark) Camera(string? name)
    {
        (Storage.Cameras.KeptCamera? camera, string? remark) = PlanLimits.Find(name, say.DataFolder(call));
        return (camera is null ? null : PlanLimits.ForPlan(camera, say.DataFolder(call)), remark);
    }

    /// <inheritdoc/>
    public WorkedLight Light(string time) => PlanLight.Read(call, time, say);
}
