using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Where in the frame a crop lies.</summary>
/// <param name="Subject">What it shows: dark, mid tone or texture.</param>
/// <param name="Left">First column, sensor pixels from the left of the active area.</param>
/// <param name="Top">First row, from its top.</param>
public sealed record CropPosition(CropSubject Subject, int Left, int Top);
