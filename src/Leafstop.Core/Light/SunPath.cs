using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The sun's way over one place during a few days: the place among the stars is worked out twice a day and drawn through by cubics, the turning of the Earth is exact.</summary>
/// <remarks>Within 0.0001° of <see cref="SunPosition"/> (a test holds it to that) and some fifty times quicker, which is what searching for events needs.</remarks>
internal sealed class SunPath
{
    private const double NodeDays = 0.5;

    private readonly TopocentricSight _ground;
    private readonly double _firstNode;
    private readonly double[] _ascension, _declination, _parallax;

    /// <summary>Makes the path.</summary>
    /// <param name="start">Start; times are seconds from here.</param>
    /// <param name="end">End, at most a year later.</param>
    /// <param name="place">The place.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    public SunPath(Instant start, Instant end, Place place)
    {
        (Start, StartJulianDay) = (Reach.Checked(start), TerrestrialTime.JulianDay(start));
        Seconds = (Reach.Checked(end) - start).TotalSeconds;
        _ground = new TopocentricSight(place);
        _firstNode = StartJulianDay - NodeDays;
        int nodes = (int)Math.Ceiling(Seconds / 86400 / NodeDays) + 4;
        (_ascension, _declination, _parallax) = (new double[nodes], new double[nodes], new double[nodes]);
        double deltaT = TerrestrialTime.DeltaTSeconds(start);
        for (int i = 0; i < nodes; i++)
        {
            GeocentricSun sun = GeocentricSun.At(_firstNode + (i * NodeDays), deltaT);
            double ascension = sun.RightAscensionDegrees - sun.EquinoxDegrees;
            // Unbroken over the turn from 360 to 0.
            _ascension[i] = i == 0 ? ascension : _ascension[i - 1] + Math.IEEERemainder(ascension - _ascension[i - 1], 360);
            _declination[i] = sun.DeclinationDegrees;
            _parallax[i] = SunPosition.ParallaxRadians(sun.DistanceAu);
        }
    }

    /// <summary>Start.</summary>
    public Instant Start { get; }

    /// <summary>Length of the path, s.</summary>
    public double Seconds { get; }

    private double StartJulianDay { get; }

    /// <summary>The time so many seconds after the start.</summary>
    public Instant Time(double seconds) => Start + Duration.FromSeconds(seconds);

    /// <summary>What is seen so many seconds after the start.</summary>
    public TopocentricSight.Sight At(double seconds)
    {
        double day = seconds / 86400;
        double at = (StartJulianDay - _firstNode + day) / NodeDays;
        int node = Math.Clamp((int)at, 1, _ascension.Length - 3);
        double t = at - node;
        double hour = GeocentricSun.MeanSiderealDegrees(StartJulianDay + day) + _ground.LongitudeDegrees - Cubic(_ascension, node, t);
        return _ground.Of(Math.IEEERemainder(hour, 360), Cubic(_declination, node, t), Cubic(_parallax, node, t));
    }

    /// <summary>Airless altitude, degrees.</summary>
    public double AltitudeAt(double seconds) => At(seconds).Altitude;

    // Lagrange through the nodes before, at, after and after that.
    private static double Cubic(double[] y, int node, double t) =>
        (-t * (t - 1) * (t - 2) / 6 * y[node - 1]) + ((t + 1) * (t - 1) * (t - 2) / 2 * y[node])
        - ((t + 1) * t * (t - 2) / 2 * y[node + 1]) + ((t + 1) * t * (t - 1) / 6 * y[node + 2]);
}
