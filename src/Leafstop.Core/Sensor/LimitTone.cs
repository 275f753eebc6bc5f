namespace Leafstop.Core.Sensor;

/// <summary>The tone at which a limit is asked.</summary>
public enum LimitTone
{
    /// <summary>Metered mid-grey.</summary>
    MidGrey,

    /// <summary>Three stops below metered mid-grey.</summary>
    Minus3Ev,
}
