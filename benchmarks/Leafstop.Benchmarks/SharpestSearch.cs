using System.Globalization;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Benchmarks;

/// <summary>Times the search for the sharpest aperture by exact contrast, and the answers that hold it.</summary>
internal static class SharpestSearch
{
    // Small, middling and large work: how often the pattern turns within the pupil grows with the depth asked for.
    private static readonly (string Name, double Focal, double Near)[] Depths =
        [("shallow, 24 mm from 20 m", 24, 20), ("middling, 24 mm from 1.8 m", 24, 1.8), ("impossible, 100 mm from 1 m", 100, 1)];

    public static int Run(string[] args)
    {
        int times = args is [var text] ? int.Parse(text, CultureInfo.InvariantCulture) : 200;
        var blur = PermittedBlur.OfCircle(Length.FromMillimetres(0.015));
        foreach ((string name, double focal, double near) in Depths)
        {
            var demand = DepthDemand.Of(Lens.Of(Length.FromMillimetres(focal)), SubjectDistance.FromMetres(near), SubjectDistance.Infinity);
            double search = Clock.Best(times, () => SharpestAperture.Exact(demand, blur.LinePairsPerMillimetre, Diffraction.GreenLight));
            double answer = Clock.Best(times, () => DepthAnswer.Of(demand, blur, Diffraction.GreenLight));
            Console.WriteLine(FormattableString.Invariant($"{name,-30} exact search {search * 1e6,8:F0} µs   whole answer {answer * 1e6,8:F0} µs"));
        }
        double integral = Clock.Best(times, () => BlurTransfer.Exact(0.4, 0.5));
        Console.WriteLine(FormattableString.Invariant($"one contrast, half a wave: {integral * 1e9:F0} ns"));
        return 0;
    }
}
