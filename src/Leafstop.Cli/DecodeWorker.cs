using System.Runtime.CompilerServices;
using Leafstop.Raw.Decoding;

namespace Leafstop.Cli;

/// <summary>The hidden first argument "decode-worker": this process decodes raw files for another Leafstop process.</summary>
internal static class DecodeWorker
{
    /// <summary>The arguments that make a copy of this program a worker.</summary>
    public static WorkerCommand Command => WorkerCommand.ThisProgram("decode-worker");

    // Kept out of Program, so that starting any other verb does not load the raw assembly.
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static int Run() => DecodingWorker.RunAsProcess();
}
