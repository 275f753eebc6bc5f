namespace Leafstop.Core.Sensor;

/// <summary>Temporal variance = <paramref name="Intercept"/> + <paramref name="Slope"/> · signal, in DN² and DN, with the covariance of the two.</summary>
internal sealed record VarianceLine(double Intercept, double Slope, double InterceptVariance, double Covariance, double SlopeVariance)
{
    public VarianceLine Widened(double factor) => this with
    {
        InterceptVariance = InterceptVariance * factor,
        Covariance = Covariance * factor,
        SlopeVariance = SlopeVariance * factor,
    };

    /// <summary>1 / slope. The interval is that of the slope, turned over.</summary>
    public Estimate Gain()
    {
        double half = Estimate.Normal95 * Math.Sqrt(SlopeVariance);
        return new Estimate(1 / Slope, 1 / (Slope + half), Slope > half ? 1 / (Slope - half) : double.PositiveInfinity);
    }

    /// <summary>√intercept. The interval is that of the variance, rooted: it stays honest when the intercept is barely above zero.</summary>
    public Estimate NoiseDn()
    {
        double half = Estimate.Normal95 * Math.Sqrt(InterceptVariance);
        return new Estimate(Root(Intercept), Root(Intercept - half), Root(Intercept + half));
    }

    /// <summary>√intercept / slope, by error propagation on the squared noise in electrons, intercept / slope².</summary>
    public Estimate NoiseElectrons()
    {
        double squared = Intercept / (Slope * Slope);
        double byIntercept = 1 / (Slope * Slope), bySlope = -2 * squared / Slope;
        double variance = byIntercept * byIntercept * InterceptVariance
            + 2 * byIntercept * bySlope * Covariance
            + bySlope * bySlope * SlopeVariance;
        double half = Estimate.Normal95 * Math.Sqrt(variance);
        return new Estimate(Root(squared), Root(squared - half), Root(squared + half));
    }

    private static double Root(double value) => Math.Sqrt(Math.Max(0, value));
}
