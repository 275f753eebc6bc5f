using System.Buffers;

namespace Leafstop.Raw.Decoding;

/// <summary>The samples of a frame where the raw library put them: no copy, freed with the file.</summary>
internal sealed unsafe class LibrarySamples : MemoryManager<ushort>
{
    private readonly RawHandle _file;
    private readonly int _count;
    private ushort* _first;

    public LibrarySamples(RawHandle file, ushort* first, int count)
    {
        _file = file;
        _first = first;
        _count = count;
    }

    public override Span<ushort> GetSpan()
    {
        ObjectDisposedException.ThrowIf(_first == null, this);
        return new Span<ushort>(_first, _count);
    }

    public override MemoryHandle Pin(int elementIndex = 0)
    {
        ObjectDisposedException.ThrowIf(_first == null, this);
        ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)elementIndex, (uint)_count);
        return new MemoryHandle(_first + elementIndex);
    }

    // Memory outside the collected heap does not move.
    public override void Unpin()
    {
    }

    protected override void Dispose(bool disposing)
    {
        _first = null;
        if (disposing)
            _file.Dispose();
    }
}
