using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling.Report;

/// <summary>A crop that shows what a number says.</summary>
/// <param name="Iso">Level that it was taken from.</param>
/// <param name="Caption">What is seen, in a sentence; also read out in place of the picture.</param>
/// <param name="Png">The picture as a PNG file.</param>
public sealed record ReportPicture(Iso Iso, string Caption, ReadOnlyMemory<byte> Png);
