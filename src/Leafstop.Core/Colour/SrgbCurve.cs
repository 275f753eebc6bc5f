namespace Leafstop.Core.Colour;

/// <summary>The tone curve of sRGB between linear light and coded values, both 0 to 1.</summary>
/// <remarks>Source: IEC 61966-2-1 (read at second hand), rows PER-25 to PER-27. 12.92 v below 0.0031308, else 1.055 v^(1/2.4) − 0.055; back with the knee
/// at 0.04045 (0.03928 circulates from an older text). The published numbers leave a gap of about 1e-8 at the knee. Values outside 0 to 1 are mirrored at
/// zero and carried on above one, so that noise around black is not cut off; a picture for the screen is clipped by whoever writes it.</remarks>
public static class SrgbCurve
{
    /// <summary>Linear light below which the curve is a straight line.</summary>
    public const double LinearKnee = 0.0031308;

    /// <summary>Coded value below which it is.</summary>
    public const double CodedKnee = 0.04045;

    /// <summary>From linear light to the coded value: 0.18 becomes 0.4614.</summary>
    public static double Encode(double linear) => linear < 0
        ? -Encode(-linear)
        : linear <= LinearKnee ? 12.92 * linear : 1.055 * Math.Pow(linear, 1 / 2.4) - 0.055;

    /// <summary>From the coded value to linear light: 128 / 255 becomes 0.2159.</summary>
    public static double Decode(double coded) => coded < 0
        ? -Decode(-coded)
        : coded <= CodedKnee ? coded / 12.92 : Math.Pow((coded + 0.055) / 1.055, 2.4);
}
