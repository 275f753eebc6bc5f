using System.ComponentModel;

namespace Leafstop.Browser.Contracts;

/// <summary>A kept camera, as a list names it.</summary>
public sealed record CameraView(
    string Name,
    [property: Description("As the camera writes it.")] string Model,
    [property: Description("When it was last measured; null when it is known from a card alone.")] DateTimeOffset? MeasuredAt,
    [property: Description("The folder that it was measured from last, of those that are still there and may be opened here; null when there is none.")] string? Folder = null);
