namespace Leafstop.Cli.CommandLine;

/// <summary>What stdout leads to. A full disk behind it is no fault of ours: it ends in one sentence. A reader that has had enough is passed on as it comes.</summary>
/// <param name="inner">Stdout.</param>
internal sealed class ResultStream(Stream inner) : Stream
{
    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        try
        {
            inner.Write(buffer);
        }
        catch (IOException full) when (!IsClosedPipe(full))
        {
            throw Refusal.WrongCall($"the result cannot be written ({full.Message.TrimEnd('.')}): let stdout lead to a place with room that may be written.");
        }
    }

    public override void Flush() => inner.Flush();

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    // EPIPE, as .NET reports it on Linux and macOS; ERROR_NO_DATA and ERROR_BROKEN_PIPE on Windows.
    internal static bool IsClosedPipe(IOException error) => (error.HResult & 0xFFFF) is 32 or 109 or 232 || error.Message.Contains("Broken pipe", StringComparison.Ordinal);
}
