using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>A sudden drop of read noise between two neighbouring levels.</summary>
/// <param name="Below">Last measured ISO before the drop.</param>
/// <param name="Above">First measured ISO after it.</param>
/// <param name="Ratio">Read noise of the analogue part before over after.</param>
/// <param name="DeltaChiSquared">How much better the curve fits with the step than without.</param>
public sealed record GainStep(Iso Below, Iso Above, double Ratio, double DeltaChiSquared);
