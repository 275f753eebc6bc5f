using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>What lights the bench.</summary>
public enum Lamp
{
    /// <summary>A lamp on 50 Hz mains: its light swells a hundred times a second.</summary>
    Mains50,

    /// <summary>A lamp on 60 Hz mains: its light swells a hundred and twenty times a second.</summary>
    Mains60,

    /// <summary>LEDs on direct current (a battery, a steady supply): no swell.</summary>
    LedDc,
}

/// <summary>How much of a lamp's flicker survives an exposure.</summary>
public static class LampRipple
{
    /// <summary>Swells a second; 0 for a steady lamp.</summary>
    public static double Frequency(Lamp lamp) => lamp switch
    {
        Lamp.Mains50 => 100,
        Lamp.Mains60 => 120,
        _ => 0,
    };

    /// <summary>The largest share by which a frame can be brighter or darker than the mean, 0 to 1, whenever it is begun.</summary>
    /// <remarks>Derived: the mean of 1 + m·cos(2πft + φ) over a time T is 1 + m·sinc(fT)·cos(…), so the share is
    /// m·|sin(πfT)/(πfT)|. One swell of a pure tone is assumed; a real lamp has overtones, which die faster. With m = 1, the worst
    /// that such a lamp can do, and T the exact power behind the mark, it gives 20 % at 1/60 and 77 % at 1/250 on 50 Hz mains.</remarks>
    /// <param name="lamp">The lamp.</param>
    /// <param name="shutter">Exposure time, literal.</param>
    /// <param name="modulation">Depth m of the swell, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The depth is not from 0 to 1.</exception>
    public static double Share(Lamp lamp, ShutterTime shutter, double modulation = 1)
    {
        if (!(modulation is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(modulation), modulation, "The depth of a swell is from 0 to 1.");
        double turns = Math.PI * Frequency(lamp) * shutter.Seconds;
        return turns == 0 ? 0 : modulation * Math.Abs(Math.Sin(turns) / turns);
    }
}
