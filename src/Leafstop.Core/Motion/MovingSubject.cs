using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>Something that moves in front of a lens: how its travel looks on the sensor.</summary>
/// <remarks>Thin lens: travel on the sensor is travel × m × sin θ, m = f/(d−f), θ the angle between the motion and the lens axis. Rows B-01 to B-06 and
/// MOT-01. Exact for a perfect lens focused on the subject and motion near the middle of a frame that is not very wide; the corners of a wide
/// lens stretch it by up to 1/cos². At 10 m with 50 mm it is 0.5 % more than f/d would give.</remarks>
public sealed record MovingSubject
{
    /// <summary>Motion straight across the view.</summary>
    public static readonly Angle Across = Angle.FromDegrees(90);

    private MovingSubject(Lens lens, SubjectDistance distance, Angle toAxis) =>
        (Lens, Distance, ToAxis, Scale) = (lens, distance, toAxis, lens.Magnification(distance) * Math.Abs(Math.Sin(toAxis.Radians)));

    /// <summary>The lens.</summary>
    public Lens Lens { get; }

    /// <summary>How far away the subject is, from the lens.</summary>
    public SubjectDistance Distance { get; }

    /// <summary>Angle between the motion and the lens axis: 90° is across the view, 0° towards the camera.</summary>
    public Angle ToAxis { get; }

    /// <summary>Travel on the sensor over travel of the subject.</summary>
    public double Scale { get; }

    /// <summary>Takes a subject that moves straight across the view, which smears most.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The subject is not beyond the focal length.</exception>
    public static MovingSubject Of(Lens lens, SubjectDistance distance) => Of(lens, distance, Across);

    /// <summary>Takes a subject that moves at an angle to the lens axis.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The subject is not beyond the focal length.</exception>
    public static MovingSubject Of(Lens lens, SubjectDistance distance, Angle toAxis) => new(lens, distance, toAxis);

    /// <summary>Speed on the sensor.</summary>
    public Speed ImageSpeed(Speed speed) => Speed.FromMetresPerSecond(speed.MetresPerSecond * Scale);

    /// <summary>Length on the sensor of a travel of the subject.</summary>
    public Length ImageTravel(Length travel) => Length.FromMillimetres(travel.Millimetres * Scale);

    /// <summary>Travel of the subject that makes a length on the sensor; null when nothing does (at infinity, or motion towards the camera).</summary>
    public Length? TravelFor(Length onSensor) => Scale > 0 && double.IsFinite(onSensor.Millimetres / Scale)
        ? Length.FromMillimetres(onSensor.Millimetres / Scale)
        : null;

    /// <summary>Smear on the sensor of steady motion: v·m·t. Of swaying things see <see cref="SwayingLeaf"/>: they turn back.</summary>
    public Length Smear(Speed speed, ShutterTime shutter) => Length.FromMetres(speed.MetresPerSecond * Scale * shutter.Seconds);

    /// <summary>The speed of the subject from a smear that a frame shows: smear/(m·t); null when its motion does not show.</summary>
    /// <remarks>The inverse of <see cref="Smear"/>, for motion that did not turn back in the frame: of a swing that did it tells too little.</remarks>
    /// <param name="onSensor">Length of the smear on the sensor.</param>
    /// <param name="shutter">Exposure of the frame.</param>
    public Speed? SpeedFrom(Length onSensor, ShutterTime shutter) => TravelFor(onSensor) is { } travel
        ? Speed.FromMetresPerSecond(travel.Metres / shutter.Seconds)
        : null;

    /// <summary>The longest exposure whose smear stays within a length on the sensor: c/(v·m).</summary>
    /// <param name="speed">Speed of the subject.</param>
    /// <param name="allowedOnSensor">Largest smear that is taken for still, above zero; <see cref="JudgedPrint.CircleOfConfusion"/> for a print.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is allowed.</exception>
    public HoldingShutter LongestShutter(Speed speed, Length allowedOnSensor)
    {
        if (allowedOnSensor.Millimetres <= 0)
            throw new ArgumentOutOfRangeException(nameof(allowedOnSensor), allowedOnSensor.Millimetres, "The smear that is allowed is above zero.");
        return HoldingShutter.FromSeconds(allowedOnSensor.Metres / (speed.MetresPerSecond * Scale));
    }
}
