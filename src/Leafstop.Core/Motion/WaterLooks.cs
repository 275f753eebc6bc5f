using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>Which look a shutter gives water of a speed.</summary>
/// <remarks>Rule of thumb, the weakest law of all here: travel in the exposure over the size of the visible texture, below 0.1 frozen, to 1 soft-edged, to 8
/// textured, to 70 silk, above mist. The bands come from the trade's times (P-01 to P-04, common practice, no source) at 5 m/s and a texture of
/// 15 cm, both chosen; the sea's times (P-07, P-08) agree at 2 m/s. Every answer is ±1 stop at best, and the same travel looks calmer in a wide
/// frame: a taste as a <see cref="Streak"/> is the better guide once there is one.</remarks>
public static class WaterLooks
{
    /// <summary>Size of the visible texture when none is given: 15 cm (a choice, see above).</summary>
    public static readonly Length UsualTexture = Length.FromCentimetres(15);

    /// <summary>How far a look may be off: one stop of time either way.</summary>
    public static readonly Stops Uncertainty = Stops.Of(1);

    // Upper ends of the bands, travel over texture, in the order of the looks.
    private static readonly ImmutableArray<double> Ends = [0.1, 1, 8, 70];

    // Where a band has no outer end: the trade's shortest time, 1/1600 s at 5 m/s (P-01), and its longest, 15 s at 2 m/s (P-08).
    private const double FrozenFrom = 0.02, MistTo = 200;

    /// <summary>The look of an exposure, with the looks it may as well be.</summary>
    /// <param name="water">Speed of the water.</param>
    /// <param name="shutter">Exposure.</param>
    /// <param name="texture">Size of the visible texture, above zero; see <see cref="UsualTexture"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">No texture.</exception>
    public static LookReading Of(Speed water, ShutterTime shutter, Length texture)
    {
        double travelled = water.MetresPerSecond * shutter.Seconds / Textures(texture);
        return new LookReading(LookAt(travelled), LookAt(travelled / Uncertainty.Ratio), LookAt(travelled * Uncertainty.Ratio), travelled);
    }

    /// <summary>The exposures that give a look, from the shortest to the longest.</summary>
    /// <param name="look">The look.</param>
    /// <param name="water">Speed of the water, above zero.</param>
    /// <param name="texture">Size of the visible texture, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No speed or no texture.</exception>
    public static LookShutters ShuttersFor(WaterLook look, Speed water, Length texture)
    {
        if (water.MetresPerSecond <= 0)
            throw new ArgumentOutOfRangeException(nameof(water), water.MetresPerSecond, "Still water looks the same at any time.");
        double second = Textures(texture) / water.MetresPerSecond;
        double from = look == WaterLook.Frozen ? FrozenFrom : Ends[(int)look - 1];
        double to = look == WaterLook.Mist ? MistTo : Ends[(int)look];
        return new LookShutters(ShutterTime.FromSeconds(from * second), ShutterTime.FromSeconds(to * second));
    }

    /// <summary>The look's name in a sentence: "soft-edged".</summary>
    public static string NameOf(WaterLook look) => look switch
    {
        WaterLook.Frozen => "frozen",
        WaterLook.SoftEdged => "soft-edged",
        WaterLook.Textured => "textured",
        WaterLook.Silk => "silk",
        _ => "mist",
    };

    /// <summary>The look of a name, case and hyphen ignored; null when it is none.</summary>
    public static WaterLook? Named(string? name)
    {
        string bare = (name ?? "").Trim().Replace("-", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal);
        foreach (WaterLook look in Enum.GetValues<WaterLook>())
        {
            if (bare.Equals(look.ToString(), StringComparison.OrdinalIgnoreCase))
                return look;
        }
        return null;
    }

    private static WaterLook LookAt(double travelled) => (WaterLook)Ends.Count(end => travelled >= end);

    private static double Textures(Length texture) => texture.Millimetres > 0
        ? texture.Metres
        : throw new ArgumentOutOfRangeException(nameof(texture), texture.Millimetres, "The size of a texture is above zero.");
}

/// <summary>A look with its uncertainty.</summary>
/// <param name="Look">The likeliest.</param>
/// <param name="Sharper">The look if the water is a stop calmer than thought.</param>
/// <param name="Smoother">The look if it is a stop livelier.</param>
/// <param name="TravelInTextures">Travel in the exposure over the size of the texture.</param>
public sealed record LookReading(WaterLook Look, WaterLook Sharper, WaterLook Smoother, double TravelInTextures)
{
    /// <summary>Always a rule of thumb.</summary>
    public HowKnown How { get; } = HowKnown.RuleOfThumb;

    /// <summary>True when one stop either way changes nothing.</summary>
    public bool IsSure => Sharper == Look && Smoother == Look;

    /// <summary>"textured", "textured, perhaps silk".</summary>
    public string ToDisplay() => WaterLooks.NameOf(Look)
        + (IsSure ? "" : $", perhaps {string.Join(" or ", new[] { Sharper, Smoother }.Where(look => look != Look).Select(WaterLooks.NameOf))}");
}

/// <summary>Exposures that give a look; the ends are ±1 stop.</summary>
/// <param name="Shortest">Shortest, literal.</param>
/// <param name="Longest">Longest, literal.</param>
public sealed record LookShutters(ShutterTime Shortest, ShutterTime Longest)
{
    /// <summary>Always a rule of thumb.</summary>
    public HowKnown How { get; } = HowKnown.RuleOfThumb;

    /// <summary>In the middle, as many stops from either end.</summary>
    public ShutterTime Middle => ShutterTime.FromSeconds(Math.Sqrt(Shortest.Seconds * Longest.Seconds));
}
