using Leafstop.Browser.Contracts;

namespace Leafstop.Browser;

/// <summary>What the host sent along with the page that was opened, so that its first picture waits for no question.</summary>
/// <param name="desk">The cameras of the first page; null when another page was opened.</param>
public sealed class SentAlong(DeskCameraView[]? desk)
{
    private DeskCameraView[]? _desk = desk;

    /// <summary>The cameras, once: whoever comes back to the first page asks anew.</summary>
    public DeskCameraView[]? TakeDesk()
    {
        DeskCameraView[]? taken = _desk;
        _desk = null;
        return taken;
    }
}
