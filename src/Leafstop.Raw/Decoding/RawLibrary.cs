using System.Reflection;
using System.Runtime.InteropServices;

namespace Leafstop.Raw.Decoding;

/// <summary>The functions of Native/leafstop_raw.c.</summary>
/// <remarks>The library lies beside this assembly. The environment variable <see cref="OtherLibraryVariable"/> names another one with
/// the same functions; only the tests set it, to see what a decoder that crashes, hangs or swallows memory does.</remarks>
internal static unsafe partial class RawLibrary
{
    public const string OtherLibraryVariable = "LEAFSTOP_TEST_RAW_LIBRARY";

    // Error numbers of the raw library that mean something to a photographer.
    public const int FileUnsupported = -2, OutOfMemory = -100007, DataError = -100008, ReadError = -100009, TooBig = -100012;

    private const string Name = "leafstop_raw";
    private const uint Abi = 3;

    static RawLibrary() => NativeLibrary.SetDllImportResolver(typeof(RawLibrary).Assembly, Resolve);

    private static nint Resolve(string name, Assembly assembly, DllImportSearchPath? search)
    {
        string? other = name == Name ? Environment.GetEnvironmentVariable(OtherLibraryVariable) : null;
        return string.IsNullOrEmpty(other) ? 0 : NativeLibrary.Load(other);
    }

    /// <summary>Asks the library for its version, once, so that a missing or mismatched one is told before any file is blamed.</summary>
    /// <exception cref="InvalidOperationException">The library is missing, does not load or was built from other source.</exception>
    public static void EnsureUsable()
    {
        try
        {
            if (AbiVersion() != Abi || FactsSize() != (uint)sizeof(RawFacts))
                throw new InvalidOperationException("The raw reader's native library was built from other source than this program. Build both again.");
        }
        catch (Exception e) when (e is DllNotFoundException or EntryPointNotFoundException or BadImageFormatException)
        {
            throw new InvalidOperationException(
                $"The raw reader's native library does not load. Install LibRaw (Debian package libraw20 or libraw-dev) and build again. ({e.Message})", e);
        }
    }

    [LibraryImport(Name, EntryPoint = "leafstop_raw_abi")]
    private static partial uint AbiVersion();

    [LibraryImport(Name, EntryPoint = "leafstop_raw_facts_size")]
    private static partial uint FactsSize();

    [LibraryImport(Name, EntryPoint = "leafstop_raw_open", StringMarshalling = StringMarshalling.Utf8)]
    public static partial nint Open(string path, int memoryLimitMb, out int error);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_describe")]
    public static partial int Describe(RawHandle file, RawFacts* facts);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_unpack")]
    public static partial int Unpack(RawHandle file);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_data_errors")]
    public static partial int DataErrors(RawHandle file);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_samples")]
    public static partial ushort* Samples(RawHandle file);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_close")]
    public static partial void Close(nint file);

    [LibraryImport(Name, EntryPoint = "leafstop_raw_divert_stdout")]
    public static partial int DivertStandardOutput();

    [LibraryImport(Name, EntryPoint = "leafstop_raw_keep_memory")]
    public static partial void KeepMemory();

    [LibraryImport(Name, EntryPoint = "leafstop_raw_leave")]
    public static partial void Leave(int code);
}
