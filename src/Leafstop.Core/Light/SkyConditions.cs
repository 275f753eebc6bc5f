namespace Leafstop.Core.Light;

/// <summary>What stands between the sky and the ground of a picture. The default is open ground under a clear sky.</summary>
public sealed record SkyConditions
{
    /// <summary>Open ground under a clear sky.</summary>
    public static SkyConditions OpenAndClear { get; } = new();

    /// <summary>Cloud.</summary>
    public CloudCover Cloud { get; init; }

    /// <summary>Trees.</summary>
    public Canopy Canopy { get; init; } = Canopy.None;

    /// <summary>Walls of a valley.</summary>
    public SkyView View { get; init; } = SkyView.Open;

    /// <summary>Horizon or ridge.</summary>
    public SkyLine SkyLine { get; init; } = SkyLine.Level;

    /// <summary>The line that hides the sun: the ridge given; else the walls of a basin, which stand all round; else none. In a valley the sun may shine along it.</summary>
    internal SkyLine? Hiding => SkyLine.Ridge is not null ? SkyLine
        : View.Shape == LandShape.Basin ? SkyLine.Level.WithRidge(View.Wall)
        : null;
}
