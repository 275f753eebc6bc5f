using Leafstop.Core.Quantities;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Jpegs;

/// <summary>A place of a JPEG at one ISO, pixel for pixel as the camera made it, to be looked at.</summary>
/// <param name="Iso">ISO as the file states it.</param>
/// <param name="File">The file.</param>
/// <param name="Subject">What it shows; never <see cref="CropSubject.Difference"/>.</param>
/// <param name="Png">The picture as a PNG file, sRGB, each pixel three times its size.</param>
/// <param name="Side">Width and height in pixels of the PNG file.</param>
public sealed record JpegPicture(Iso Iso, string File, CropSubject Subject, ReadOnlyMemory<byte> Png, int Side);
