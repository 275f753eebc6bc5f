using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>The shape of the land around, as far as it takes sky away.</summary>
public enum LandShape
{
    /// <summary>Open to the horizon.</summary>
    Open,

    /// <summary>A long valley with a wall on both sides.</summary>
    Valley,

    /// <summary>Walls all round.</summary>
    Basin,
}

/// <summary>How much of the sky's light reaches level ground between walls. Light thrown back by the walls is not counted: pale rock makes it brighter.</summary>
public sealed record SkyView
{
    // The integrand is smooth and periodic, so this many points give more digits than anybody needs.
    private const int Bearings = 360;

    private SkyView(LandShape shape, Angle wall) => (Shape, Wall, Overcast) = (shape, wall, OvercastShare(shape, wall));

    /// <summary>No walls.</summary>
    public static SkyView Open { get; } = new(LandShape.Open, Angle.FromDegrees(0));

    /// <summary>The shape.</summary>
    public LandShape Shape { get; }

    /// <summary>How high the walls stand as seen from the spot.</summary>
    public Angle Wall { get; }

    /// <summary>A long valley, both walls as high as given.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0° to below 90°; the message is for the person.</exception>
    public static SkyView Valley(Angle wall) => new(LandShape.Valley, Checked(wall));

    /// <summary>Walls all round, as high as given.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0° to below 90°; the message is for the person.</exception>
    public static SkyView Basin(Angle wall) => new(LandShape.Basin, Checked(wall));

    /// <summary>Share of the light of an evenly bright sky: cos β in a valley, cos² β in a basin.</summary>
    /// <remarks>Row L-26: valley form in [SVF], basin derived.</remarks>
    public double Uniform => Shape switch
    {
        LandShape.Valley => Math.Cos(Wall.Radians),
        LandShape.Basin => Math.Cos(Wall.Radians) * Math.Cos(Wall.Radians),
        _ => 1,
    };

    /// <summary>Share of the light of a closed grey sky, which is three times as bright at the zenith as at the horizon.</summary>
    /// <remarks>Row L-27 on the sky of L-08: (3(1 − s²) + 4(1 − s³))/7 above a wall of sine s, averaged over bearings. Derived.</remarks>
    public double Overcast { get; }

    /// <summary>Share of the sky's light under a partly closed sky: between the two by the eighths of cloud. Our choice.</summary>
    public double Share(CloudCover cloud) => Shape == LandShape.Open ? 1 : Uniform + ((Overcast - Uniform) * cloud.Okta / 8);

    private static double OvercastShare(LandShape shape, Angle wall)
    {
        if (shape != LandShape.Valley)
            return Above(Math.Sin(wall.Radians));
        // Along a bearing φ off the valley's line a wall of elevation β is seen under atan(tan β · |sin φ|).
        double slope = Math.Tan(wall.Radians), sum = 0;
        for (int i = 0; i < Bearings; i++)
            sum += Above(Math.Sin(Math.Atan(slope * Math.Sin((i + 0.5) * Math.PI / Bearings))));
        return sum / Bearings;
    }

    private static double Above(double sine) => ((3 * (1 - (sine * sine))) + (4 * (1 - (sine * sine * sine)))) / 7;

    private static Angle Checked(Angle wall) => wall.Degrees is >= 0 and < 90
        ? wall
        : throw new ArgumentOutOfRangeException(nameof(wall), wall.Degrees, "The height of a wall is from 0 to under 90 degrees.");
}
