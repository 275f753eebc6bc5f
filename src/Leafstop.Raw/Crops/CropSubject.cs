namespace Leafstop.Raw.Crops;

/// <summary>What a crop of the bench scene shows.</summary>
public enum CropSubject
{
    /// <summary>The darkest calm place that is not cut off: read noise.</summary>
    Dark,

    /// <summary>A calm place near mid-grey: the light's own noise.</summary>
    MidTone,

    /// <summary>The place near mid-grey with the most fine detail: what noise covers.</summary>
    Texture,

    /// <summary>The difference of two frames at the mid tone, always at the same contrast: the shape of the grain, without the scene.</summary>
    Difference,
}
