namespace Leafstop.Raw.Decoding;

/// <summary>One more file has been dealt with, read or given up.</summary>
/// <param name="File">Its path.</param>
/// <param name="Done">Files dealt with so far, this one included; never falls.</param>
/// <param name="Total">Files in the whole job.</param>
public sealed record DecodingProgress(string File, int Done, int Total);
