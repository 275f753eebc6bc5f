using System.Collections.Immutable;

namespace Leafstop.Core.Viewing;

/// <summary>Spread in CIELAB of normal noise on the opponent axes, with CIELAB's bend followed and not only its slope.</summary>
internal static class LabSpread
{
    private static readonly ImmutableArray<(double Z, double Weight)> Points = NormalMean.Points(25);

    public static VisibleNoise Of(OpponentColour mean, double[,] covariance)
    {
        // Lower triangle of the square root: three independent numbers make the three axes.
        double l00 = Root(covariance[0, 0]);
        double l10 = Over(covariance[1, 0], l00), l11 = Root(covariance[1, 1] - l10 * l10);
        double l20 = Over(covariance[2, 0], l00), l21 = Over(covariance[2, 1] - l20 * l10, l11), l22 = Root(covariance[2, 2] - l20 * l20 - l21 * l21);
        var moments = new LabMoments();
        foreach ((double u, double ofU) in Points)
        {
            foreach ((double v, double ofV) in Points)
            {
                foreach ((double w, double ofW) in Points)
                {
                    OpponentColour at = new(mean.Lightness + l00 * u, mean.RedGreen + l10 * u + l11 * v, mean.YellowBlue + l20 * u + l21 * v + l22 * w);
                    moments.Add(at.ToLab(), ofU * ofV * ofW);
                }
            }
        }
        return moments.Seen();
    }

    private static double Root(double variance) => Math.Sqrt(Math.Max(0, variance));

    private static double Over(double covariance, double sd) => sd > 0 ? covariance / sd : 0;
}
