using System.Runtime.InteropServices;

namespace Leafstop.Raw.Decoding;

/// <summary>An open file in the raw library; closing it frees the samples.</summary>
internal sealed class RawHandle : SafeHandle
{
    /// <summary>The library's own limit on one allocation, in MiB: twice what the largest sensors need, half of what a process may hold.</summary>
    private const int MemoryLimitMb = 1024;

    private RawHandle(nint opened)
        : base(0, ownsHandle: true) => SetHandle(opened);

    public override bool IsInvalid => handle == 0;

    public static RawHandle Open(string path, out int error) => new(RawLibrary.Open(path, MemoryLimitMb, out error));

    public unsafe RawFacts Describe()
    {
        var facts = new RawFacts { StructSize = (uint)sizeof(RawFacts) };
        if (RawLibrary.Describe(this, &facts) != 0)
            throw new InvalidOperationException("The raw reader's native library disagrees about the size of its own structure. Build again.");
        return facts;
    }

    protected override bool ReleaseHandle()
    {
        RawLibrary.Close(handle);
        return true;
    }
}
