using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Jpegs;

/// <summary>A place that is cut out of every picture.</summary>
/// <param name="Subject">What it shows.</param>
/// <param name="Left">First column.</param>
/// <param name="Top">First row.</param>
internal sealed record JpegPlace(CropSubject Subject, int Left, int Top);

/// <summary>What a worker is told to cut out of a JPEG.</summary>
internal sealed record JpegRequest
{
    /// <summary>Places to show; null on the first picture, where they are looked for.</summary>
    public JpegPlace[]? Places { get; init; }

    /// <summary>Size that the picture must have, pixels.</summary>
    public int Width { get; init; }

    public int Height { get; init; }
}

/// <summary>What a worker says of one JPEG.</summary>
internal sealed record JpegReply
{
    /// <summary>Why the picture could not be read; null when it was.</summary>
    public string? Why { get; init; }

    /// <summary>ISO as the file states it; null when it does not.</summary>
    public double? Iso { get; init; }

    public int Width { get; init; }

    public int Height { get; init; }

    public JpegPlace[] Places { get; init; } = [];

    public JpegCrop[] Crops { get; init; } = [];
}

/// <summary>One finished crop.</summary>
internal sealed record JpegCrop(CropSubject Subject, byte[] Png);
