using Leafstop.Look;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Leafstop.Browser.Parts;

/// <summary>A part that the report draws too, as it writes it.</summary>
public sealed class Drawn : ComponentBase
{
    /// <summary>Writes the part.</summary>
    [Parameter, EditorRequired] public Action<Markup> By { get; set; } = null!;

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        Markup page = new();
        By(page);
        builder.AddMarkupContent(0, page.ToString());
    }
}
