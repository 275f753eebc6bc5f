using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Crops;

/// <summary>Tells several jobs as one.</summary>
/// <param name="progress">Who is told.</param>
/// <param name="before">Files that earlier jobs read.</param>
/// <param name="total">Files of all jobs.</param>
internal sealed class ProgressOnward(IProgress<DecodingProgress> progress, int before, int total) : IProgress<DecodingProgress>
{
    public void Report(DecodingProgress value) => progress.Report(value with { Done = before + value.Done, Total = total });
}
