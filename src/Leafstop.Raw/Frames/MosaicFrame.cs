using System.Collections.Immutable;
using Leafstop.Core.Colour;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Frames;

/// <summary>One frame of unprocessed samples, one 16-bit value a pixel, with its geometry and what the file says of its black level.</summary>
/// <remarks>Owns its memory: dispose it when done; the spans it gave out are then invalid. Samples are never written.</remarks>
public sealed class MosaicFrame : IDisposable
{
    private readonly IDisposable? _owner;

    /// <summary>Wraps samples and, when given, takes over their owner.</summary>
    public MosaicFrame(IDisposable? owner = null) => _owner = owner;

    /// <summary>What the file says.</summary>
    public required FrameHeader Header { get; init; }

    /// <summary>All samples, borders included, row by row.</summary>
    public required ReadOnlyMemory<ushort> Samples { get; init; }

    /// <summary>Samples from one row to the next.</summary>
    public required int Stride { get; init; }

    /// <summary>First column of the active area.</summary>
    public required int Left { get; init; }

    /// <summary>First row of the active area.</summary>
    public required int Top { get; init; }

    /// <summary>Light-shielded areas in raw coordinates.</summary>
    public ImmutableArray<MaskedArea> MaskedAreas { get; init; } = [];

    /// <summary>Black level as tagged, fractions kept, one value a site of the mosaic cell in active coordinates; empty when the file has no tag.</summary>
    public ImmutableArray<double> TagBlackDn { get; init; } = [];

    /// <summary>Black level as the raw library states it in whole numbers, one value a site of the mosaic cell.</summary>
    public required ImmutableArray<double> LibraryBlackDn { get; init; }

    /// <summary>Raw value of a neutral tone in red, green and blue, on any scale, as the file states it; empty when it does not.</summary>
    public ImmutableArray<double> AsShotNeutral { get; init; } = [];

    /// <summary>XYZ to the camera's colours, on any scale; null when neither the file nor the raw library states it.</summary>
    public ColourMatrix? XyzToCamera { get; init; }

    /// <summary>White of the light that <see cref="XyzToCamera"/> was measured in.</summary>
    public Chromaticity ColourLight { get; init; } = Chromaticity.D65;

    /// <summary>Damage that the decoder reported while it went on.</summary>
    public int DataErrors { get; init; }

    /// <summary>Columns of the active area.</summary>
    public int Width => Header.Width;

    /// <summary>Rows of the active area.</summary>
    public int Height => Header.Height;

    /// <summary>One row of the active area.</summary>
    public ReadOnlySpan<ushort> Row(int y) => Samples.Span.Slice((Top + y) * Stride + Left, Width);

    /// <inheritdoc/>
    public void Dispose() => _owner?.Dispose();
}
