namespace Leafstop.Core.Sensor;

/// <summary>The print that a limit holds for.</summary>
/// <param name="WidthMm">Print width, mm, above zero.</param>
/// <param name="ViewingDistanceMm">Distance from which it is looked at, mm, above zero.</param>
public sealed record PrintCondition(double WidthMm, double ViewingDistanceMm);
