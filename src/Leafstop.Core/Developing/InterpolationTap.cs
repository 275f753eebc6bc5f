namespace Leafstop.Core.Developing;

/// <summary>One sample that a value of the developed picture is made from.</summary>
/// <param name="Dx">Columns from the pixel to the sample; positive = to the right.</param>
/// <param name="Dy">Rows from the pixel to the sample; positive = below.</param>
/// <param name="Channel">Colour of the sample: 0 red, 1 green, 2 blue; 0 without filters.</param>
/// <param name="Plane">Plane of the sample, indexing <see cref="Sensor.MosaicPattern.PlaneNames"/>.</param>
/// <param name="Weight">How much of it goes into the value; the weights of the value's own colour add up to 1, those of another colour to 0.</param>
public readonly record struct InterpolationTap(int Dx, int Dy, int Channel, int Plane, double Weight);
