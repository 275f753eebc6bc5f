namespace Leafstop.Core.Viewing;

/// <summary>Noise as it is seen at a print: how far CIELAB strays from the even tone after the eye has blurred it.</summary>
/// <remarks>In the spirit of the visual noise of ISO 15739 but not that measure: its contrast sensitivity and weights could not be read, and no conformity is claimed. A
/// witness beside the person's own judging, never the judge.</remarks>
/// <param name="Lightness">Standard deviation of L*.</param>
/// <param name="RedGreen">Standard deviation of a*.</param>
/// <param name="YellowBlue">Standard deviation of b*.</param>
/// <param name="LightnessWithRedGreen">Covariance of L* and a*.</param>
public sealed record VisibleNoise(double Lightness, double RedGreen, double YellowBlue, double LightnessWithRedGreen)
{
    /// <summary>One number in the unit of L*: √(σL² + 0.05 σa² + 0.12 σLa).</summary>
    /// <remarks>Weights 100, 5 and 12 of the variances of L* and a* and of their covariance: SEN-50, an objective measure calibrated in just noticeable differences (2011).
    /// The steps from there to those differences are not published, so only comparisons at like tones should be read from it. b* has no part in it.</remarks>
    public double Weighted => Math.Sqrt(Math.Max(0, Lightness * Lightness + 0.05 * RedGreen * RedGreen + 0.12 * LightnessWithRedGreen));
}
