using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>The metered ladder to shoot, in words: the shot list for a lamp that is not known.</summary>
internal static class LadderToShoot
{
    /// <summary>Stops that the shutter can follow under every lamp; what lies further below the highest ISO is left out.</summary>
    private const double MostStops = 26 / 3.0;

    /// <summary>What to shoot for "how high can I go": one time for each ISO, falling as ISO rises.</summary>
    /// <param name="isos">Levels that were shot; with fewer than three the usual ones are listed.</param>
    public static string Metered(IEnumerable<double> isos)
    {
        Iso[] shot = [.. isos.Distinct().Select(i => Iso.FromSpeed(i).NearestDial()).Distinct()];
        Iso[] wanted = shot.Length < LadderReading.LeastLevels ? [.. ShotList.UsualLevels.Select(Iso.FromSpeed)] : shot;
        Iso highest = wanted.Max()!;
        Iso[] near = [.. wanted.Where(i => Iso.FromMarking(highest.Speed).Above(Iso.FromMarking(i.Speed)).Value <= MostStops + Stops.Hair)];
        var list = ShotList.ForAnyLamp(near.Length < 2 ? [.. ShotList.UsualLevels.Select(Iso.FromSpeed)] : near);
        var lines = list.Levels.Select(l => $"{l.Shutter.ToDisplay()} at {Say.Iso(l.Iso.Speed)}");
        return $"The metered ladder: one aperture ({list.Aperture.ToDisplay()}), the lamp as it is, two frames each of {Say.List(lines)}; dim the lamp or stop down until the whites just do not clip. Then two cap frames at each ISO.";
    }
}
