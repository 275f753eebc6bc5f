namespace Leafstop.Core.Sensor;

/// <summary>A value with its 95 % interval, in the unit of the property that holds it.</summary>
/// <param name="Value">Best value.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
public readonly record struct Estimate(double Value, double Low, double High)
{
    /// <summary>Standard errors from the middle of a normal distribution to either end of its central 95 %.</summary>
    internal const double Normal95 = 1.959963984540054;

    /// <summary>Half the width of the interval as a share of the value.</summary>
    public double RelativeHalfWidth => (High - Low) / (2 * Value);
}
