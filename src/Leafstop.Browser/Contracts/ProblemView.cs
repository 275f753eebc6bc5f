namespace Leafstop.Browser.Contracts;

/// <summary>An error of the host (problem+json).</summary>
/// <param name="Detail">One sentence for the person.</param>
public sealed record ProblemView(string? Detail);
