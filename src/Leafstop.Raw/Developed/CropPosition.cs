using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Where in the frame a crop lies.</summary>
/// <param name="Subject">What it shows: dark, mid tone or texture.</param>
/// <param name="Left">First column, sensor pixels from the left of the active area.</param>
/// <param name="Top">First row, from its top.</param>
public sealed record CropPosition(CropSubject Subject, int Left, int Top)
{
    /// <summary>The place in pixels of a crop that is given by its middle.</summary>
    /// <param name="subject">What it shows.</param>
    /// <param name="across">Where its middle lies, from the left edge of the frame, as a share of the width.</param>
    /// <param name="down">The same from the top edge, of the height.</param>
    /// <param name="side">Pixels along the crop, <see cref="CropWish.SideOn"/>.</param>
    /// <param name="camera">The frame.</param>
    /// <exception cref="ArgumentException">The crop would stand out of the frame; the message says how far the middle can go.</exception>
    public static CropPosition Around(CropSubject subject, Share across, Share down, int side, CameraIdentity camera)
    {
        ArgumentNullException.ThrowIfNull(camera);
        return new CropPosition(subject, Edge(across, camera.Width), Edge(down, camera.Height));

        int Edge(Share share, int size)
        {
            int edge = (int)Math.Round(share.Value * size - side / 2.0), last = size - side - CutRequest.Margin;
            // The middle is written in hundredths: half a one either way is what was meant.
            int kept = Math.Clamp(edge, CutRequest.Margin, last);
            if (Math.Abs(kept - edge) > 0.005 * size + 1)
                throw new ArgumentException($"A crop of {side} pixels around {across.ToDisplay()}, {down.ToDisplay()} stands out of the frame: its middle can lie from {Least(camera.Width)} to {100 - Least(camera.Width)} % of the width and from {Least(camera.Height)} to {100 - Least(camera.Height)} % of the height.");
            return kept;
        }

        int Least(int size) => (int)Math.Ceiling(100 * (side / 2.0 + CutRequest.Margin) / size);
    }

    /// <summary>Where its middle lies, as shares of width and height from the left and the top edge.</summary>
    /// <param name="side">Pixels along the crop.</param>
    /// <param name="camera">The frame.</param>
    public (Share Across, Share Down) Middle(int side, CameraIdentity camera)
    {
        ArgumentNullException.ThrowIfNull(camera);
        return (Share.Of(Math.Clamp((Left + side / 2.0) / camera.Width, 0, 1)), Share.Of(Math.Clamp((Top + side / 2.0) / camera.Height, 0, 1)));
    }
}
