namespace Leafstop.Raw.Decoding;

/// <summary>Counts files over all workers and tells the count, in order, one call at a time.</summary>
internal sealed class ProgressTally(int total, IProgress<DecodingProgress>? progress)
{
    private readonly Lock _one = new();
    private int _done;

    public void Add(string file)
    {
        lock (_one)
        {
            _done++;
            progress?.Report(new DecodingProgress(file, _done, total));
        }
    }
}
