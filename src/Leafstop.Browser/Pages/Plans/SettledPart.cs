using Leafstop.Core.Planning;
using Microsoft.AspNetCore.Components;

namespace Leafstop.Browser.Pages.Plans;

/// <summary>A part of the plan that is drawn once the typing rests, and only when the plan is another: a key must not wait for it.</summary>
public abstract class SettledPart : ComponentBase
{
    private ExposurePlan? _drawn;

    /// <summary>The plan.</summary>
    [Parameter, EditorRequired] public ExposurePlan Plan { get; set; } = null!;

    /// <inheritdoc/>
    protected override bool ShouldRender()
    {
        bool isOther = !ReferenceEquals(_drawn, Plan);
        _drawn = Plan;
        return isOther;
    }
}
