namespace Leafstop.Core.Developing;

/// <summary>Factors that make a grey the same number in red, green and blue; green keeps its value.</summary>
public sealed record WhiteBalance
{
    private WhiteBalance(double red, double blue) => (Red, Blue) = (red, blue);

    /// <summary>Leaves colours as the sensor recorded them.</summary>
    public static WhiteBalance None { get; } = new(1, 1);

    /// <summary>Factor on red.</summary>
    public double Red { get; }

    /// <summary>Factor on blue.</summary>
    public double Blue { get; }

    /// <summary>Factor on a channel: 0 red, 1 green, 2 blue. Noise goes up by the same factor (WB-01).</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public double this[int channel] => channel switch
    {
        0 => Red,
        1 => 1,
        2 => Blue,
        _ => throw new ArgumentOutOfRangeException(nameof(channel), channel, "Channels are 0 (red), 1 (green) and 2 (blue)."),
    };

    /// <summary>The balance under which a neutral tone comes out neutral: green over red, 1, green over blue. Source: WB-01.</summary>
    /// <param name="red">What the sensor recorded of a neutral tone in red, black taken off, any scale: as the file states it, or the mean of a grey card.</param>
    /// <param name="green">The same in green.</param>
    /// <param name="blue">The same in blue.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above zero.</exception>
    public static WhiteBalance FromNeutral(double red, double green, double blue)
    {
        foreach (double value in (double[])[red, green, blue])
            if (!double.IsFinite(value) || value <= 0) throw new ArgumentOutOfRangeException(nameof(red), (red, green, blue), "A neutral tone has light in every colour.");
        return new WhiteBalance(green / red, green / blue);
    }
}
