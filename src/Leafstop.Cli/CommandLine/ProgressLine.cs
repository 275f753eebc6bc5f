using System.Diagnostics;

namespace Leafstop.Cli.CommandLine;

/// <summary>How far a job over many frames has come: one line that is written over on a terminal, plain lines in a pipe.</summary>
/// <remarks>May be told from any thread. A line never holds a character that would move the cursor, whatever the file is called.</remarks>
internal sealed class ProgressLine(TextWriter writer, int? terminalWidth)
{
    private readonly Lock _one = new();
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private bool _isShown;

    /// <summary>"frame 7 of 18, BENCH_0007, about 40 s left".</summary>
    public void Report(int done, int total, string file)
    {
        string line = ProgressWords.Frame(done, total, file);
        lock (_one)
        {
            if (terminalWidth is not { } width)
            {
                writer.WriteLine(line);
                return;
            }

            line += Left(done, total);
            // The last column stays free: a full line would wrap, and could not be written over.
            writer.Write($"\r\u001b[K{(line.Length < width ? line : line[..Math.Max(0, width - 1)])}");
            _isShown = true;
        }
    }

    /// <summary>A line that stays.</summary>
    public void Say(string line)
    {
        lock (_one)
        {
            Clear();
            writer.WriteLine(line);
        }
    }

    /// <summary>Leaves the terminal as it was.</summary>
    public void Finish()
    {
        lock (_one)
            Clear();
    }

    private void Clear()
    {
        if (_isShown)
            writer.Write("\r\u001b[K");
        _isShown = false;
    }

    private string Left(int done, int total) =>
        ProgressWords.SecondsLeft(done, total, _watch.Elapsed.TotalSeconds) is { } seconds ? $", {ProgressWords.Left(seconds)}" : "";
}
