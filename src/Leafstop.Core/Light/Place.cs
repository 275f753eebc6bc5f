using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>A spot on the Earth. North and east are positive.</summary>
public sealed record Place
{
    // Below the lowest shore and above the highest summit there is nobody with a tripod.
    private const double LowestMetres = -500;
    private const double HighestMetres = 9000;

    private Place(Angle latitude, Angle longitude, double elevationMetres) => (Latitude, Longitude, ElevationMetres) = (latitude, longitude, elevationMetres);

    /// <summary>Geographic latitude, −90° to 90°.</summary>
    public Angle Latitude { get; }

    /// <summary>Geographic longitude, −180° to 180°.</summary>
    public Angle Longitude { get; }

    /// <summary>Height above the sea in metres, −500 to 9000. It moves the sun by under 0.000001° and is taken for parallax only.</summary>
    public double ElevationMetres { get; }

    /// <summary>Takes degrees.</summary>
    /// <param name="latitudeDegrees">−90 to 90, north positive.</param>
    /// <param name="longitudeDegrees">−180 to 180, east positive.</param>
    /// <param name="elevationMetres">−500 to 9000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or out of its range; the message is for the person.</exception>
    public static Place FromDegrees(double latitudeDegrees, double longitudeDegrees, double elevationMetres = 0)
    {
        if (!(Math.Abs(latitudeDegrees) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitudeDegrees), latitudeDegrees, "A latitude is from -90 (south pole) to 90 (north pole).");
        if (!(Math.Abs(longitudeDegrees) <= 180))
            throw new ArgumentOutOfRangeException(nameof(longitudeDegrees), longitudeDegrees, "A longitude is from -180 (west) to 180 (east).");
        if (!(elevationMetres is >= LowestMetres and <= HighestMetres))
            throw new ArgumentOutOfRangeException(nameof(elevationMetres), elevationMetres, "A height above the sea is from -500 to 9000 metres.");
        return new Place(Angle.FromDegrees(latitudeDegrees), Angle.FromDegrees(longitudeDegrees), elevationMetres);
    }
}
