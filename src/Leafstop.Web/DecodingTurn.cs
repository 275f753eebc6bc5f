namespace Leafstop.Web;

/// <summary>One folder is decoded at a time, whoever asked: it keeps every processor busy already, and two would hold twice the frames in memory.</summary>
internal sealed class DecodingTurn : IDisposable
{
    /// <summary>Waited for before anything is decoded.</summary>
    public SemaphoreSlim Turn { get; } = new(1);

    public void Dispose() => Turn.Dispose();
}
