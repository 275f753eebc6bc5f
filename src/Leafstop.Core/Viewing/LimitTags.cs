using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>The tone at which a limit was judged or worked out.</summary>
public enum ToneKind
{
    /// <summary>The person did not say.</summary>
    NotStated,

    /// <summary>Metered mid-grey.</summary>
    MidGrey,

    /// <summary>Three stops below metered mid-grey.</summary>
    Shadows,

    /// <summary>Smooth: mist, sky, silky water.</summary>
    Smooth,

    /// <summary>Textured: rock, fern, bark.</summary>
    Textured,
}

/// <summary>What was done against noise before the limit was judged.</summary>
public enum NoiseTreatment
{
    /// <summary>The person did not say.</summary>
    NotStated,

    /// <summary>No noise reduction.</summary>
    None,

    /// <summary>The person's usual treatment.</summary>
    Usual,
}

/// <summary>The five tags without which a limit means nothing.</summary>
/// <param name="Body">Body and raw setting (bit depth, shutter type), in words.</param>
/// <param name="Print">Print width and viewing distance: two tags.</param>
/// <param name="Tone">Tone.</param>
/// <param name="Treatment">Treatment.</param>
/// <param name="Lift">By how many stops the dark was opened when the limit was judged, zero or more; null where nobody said so. It belongs to the treatment, and is a number.</param>
public sealed record LimitTags(string Body, PrintCondition Print, ToneKind Tone, NoiseTreatment Treatment, Stops? Lift = null)
{
    /// <summary>Those of a limit that was worked out.</summary>
    public static LimitTags Of(PredictedLimit predicted)
    {
        ArgumentNullException.ThrowIfNull(predicted);
        return new LimitTags(predicted.Body, predicted.Print, predicted.Tone == LimitTone.MidGrey ? ToneKind.MidGrey : ToneKind.Shadows, NoiseTreatment.None);
    }
}
