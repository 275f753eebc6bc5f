using System.Runtime.InteropServices;

namespace Leafstop.Cli.CommandLine;

/// <summary>Ctrl-C and termination: asks the verb to stop, and ends the process when it does not do so at once.</summary>
/// <remarks>Results go into place in one step (a rename, a database transaction), so ending the process leaves nothing half-written.</remarks>
internal sealed class StopSignal : IDisposable
{
    /// <summary>What is said when a call was stopped.</summary>
    public const string Sentence = "leafstop: stopped; nothing was kept or left half-written.";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private readonly CancellationTokenSource _source = new();
    private readonly PosixSignalRegistration[] _registrations;

    public StopSignal() => _registrations = [Register(PosixSignal.SIGINT), Register(PosixSignal.SIGTERM)];

    public CancellationToken Token => _source.Token;

    public void Dispose()
    {
        foreach (PosixSignalRegistration registration in _registrations)
            registration.Dispose();
        _source.Dispose();
    }

    private PosixSignalRegistration Register(PosixSignal signal) => PosixSignalRegistration.Create(signal, context =>
    {
        context.Cancel = true;
        if (_source.IsCancellationRequested)
            Environment.Exit(ExitCode.Stopped);
        // A thread of its own: a verb that does not stop may well hold every thread of the pool.
        new Thread(ExitAfterPatience) { IsBackground = true }.Start();
        _source.Cancel();
    });

    private static void ExitAfterPatience()
    {
        Thread.Sleep(Patience);
        // A line of progress may stand half-written on a terminal.
        Console.Error.WriteLine(Console.IsErrorRedirected ? Sentence : "\n" + Sentence);
        Environment.Exit(ExitCode.Stopped);
    }
}
