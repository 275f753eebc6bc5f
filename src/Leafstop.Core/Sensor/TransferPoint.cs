namespace Leafstop.Core.Sensor;

/// <summary>A point of the photon-transfer curve as shown: signal above black and temporal noise, DN.</summary>
/// <param name="Plane">Plane name.</param>
/// <param name="SignalDn">Signal above black, DN.</param>
/// <param name="NoiseDn">Standard deviation, DN, with its 95 % interval.</param>
/// <param name="Samples">Samples behind the point.</param>
public sealed record TransferPoint(string Plane, double SignalDn, Estimate NoiseDn, long Samples);
