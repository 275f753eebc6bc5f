using System.Collections.Concurrent;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Jpegs;
using Leafstop.Raw.Measurement;
using Microsoft.Win32.SafeHandles;

namespace Leafstop.Raw.Decoding;

/// <summary>The child's side of <see cref="DecodingPool"/>: takes jobs from a stream, announces each file before opening it, and sends numbers back.</summary>
public static class DecodingWorker
{
    /// <summary>Makes this process a worker on its standard input and output, until the input ends.</summary>
    /// <remarks>Call it before anything else is loaded or printed. What native code prints goes to standard error from here on. When the parent
    /// goes away the input ends, and the process leaves at once, even out of the middle of a decoder. An interrupt from the terminal is left to the parent.</remarks>
    /// <returns>The exit code, 0 for a normal end.</returns>
    public static int RunAsProcess()
    {
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, signal => signal.Cancel = true);
        using Stream input = Console.OpenStandardInput();
        try
        {
            RawLibrary.EnsureUsable();
        }
        catch (InvalidOperationException e)
        {
            using Stream plain = Console.OpenStandardOutput();
            plain.Write(WorkerMessages.Line(new WorkerReply(ReplyKind.Failed) { Why = e.Message }));
            return 1;
        }
        RawLibrary.KeepMemory();
        int kept = RawLibrary.DivertStandardOutput();
        if (kept < 0)
            return 1;
        using var output = new FileStream(new SafeFileHandle(kept, ownsHandle: true), FileAccess.Write, bufferSize: 0);
        Run(input, output, () => RawLibrary.Leave(0));
        return 0;
    }

    /// <summary>Serves jobs from one stream to another until the first ends. Files are opened in this process.</summary>
    /// <param name="input">Jobs, one line of JSON each.</param>
    /// <param name="output">Reports, one line of JSON each.</param>
    public static void Run(Stream input, Stream output) => Run(input, output, () => { });

    private static void Run(Stream input, Stream output, Action inputEnded)
    {
        using var jobs = new BlockingCollection<WorkerJob>();
        // Its own thread, so that the end of the input is seen while a decoder runs.
        var reading = new Thread(() => Read(input, jobs, inputEnded)) { IsBackground = true, Name = "jobs" };
        reading.Start();
        foreach (var job in jobs.GetConsumingEnumerable())
        {
            try
            {
                Serve(job, output);
                Send(output, new WorkerReply(ReplyKind.Done));
            }
#pragma warning disable CA1031 // Whatever goes wrong is told to the parent, which stops the work.
            catch (Exception e) when (e is not IOException)
#pragma warning restore CA1031
            {
                Send(output, new WorkerReply(ReplyKind.Failed) { Why = $"{e.GetType().Name}: {e.Message}" });
            }
        }
        reading.Join();
    }

    private static void Read(Stream input, BlockingCollection<WorkerJob> jobs, Action inputEnded)
    {
        using var lines = new StreamReader(input, new UTF8Encoding(false), false, 1 << 16, leaveOpen: true);
        while (lines.ReadLine() is { } line)
        {
            if (JsonSerializer.Deserialize(line, WorkerMessages.Default.WorkerJob) is { } job)
                jobs.Add(job);
        }
        inputEnded();
        jobs.CompleteAdding();
    }

    private static void Serve(WorkerJob job, Stream output)
    {
        if (job.Kind == JobKind.Group)
        {
            var survey = GroupMeasurement.Survey(job.Files, file => Announced(file, output), job.Ahead);
            Send(output, new WorkerReply(ReplyKind.Survey) { Survey = survey });
            return;
        }
        if (job.Kind == JobKind.Crops)
        {
            Send(output, new WorkerReply(ReplyKind.Crops) { Crops = Together(job, output, frames => LevelCrops.Of(frames[0], frames.ElementAtOrDefault(1), job.Crops ?? new CropRequest())) });
            return;
        }
        if (job.Kind == JobKind.Cuts)
        {
            Send(output, new WorkerReply(ReplyKind.Cuts) { Cuts = job.Cuts is { } request ? Together(job, output, frames => FrameCutting.Of(frames, request)) : null });
            return;
        }
        if (job.Kind is JobKind.JpegFacts or JobKind.JpegCrops)
        {
            Look(job, output);
            return;
        }
        foreach (string file in job.Files)
        {
            Send(output, new WorkerReply(ReplyKind.Opening) { File = file });
            Send(output, HeaderOf(file));
        }
    }

    private static WorkerReply HeaderOf(string file)
    {
        try
        {
            return new WorkerReply(ReplyKind.Header) { File = file, Header = RawFile.ReadHeader(file) };
        }
        catch (UnreadableRawException e)
        {
            return new WorkerReply(ReplyKind.Unread) { File = file, Why = e.Message };
        }
    }

    private static void Look(WorkerJob job, Stream output)
    {
        foreach (string file in job.Files)
        {
            Send(output, new WorkerReply(ReplyKind.Opening) { File = file });
            JpegReply reply;
            try
            {
                reply = job.Jpegs is { } request ? JpegCrops.Of(file, request) : JpegFile.Describe(file);
            }
            catch (UnreadableRawException e)
            {
                reply = new JpegReply { Why = e.Message };
            }
            Send(output, new WorkerReply(ReplyKind.Opened) { File = file });
            Send(output, new WorkerReply(ReplyKind.Jpeg) { File = file, Jpeg = reply });
            // One picture of an ISO is shown; the next one stands in for it when it can not be read.
            if (job.Kind == JobKind.JpegCrops && reply.Why is null)
                return;
        }
    }

    // A file that no longer opens leaves its partner, which can still be shown.
    private static T? Together<T>(WorkerJob job, Stream output, Func<IReadOnlyList<MosaicFrame>, T?> make)
        where T : class
    {
        MosaicFrame?[] opened = new MosaicFrame?[job.Files.Count];
        try
        {
            Parallel.For(0, opened.Length, new ParallelOptions { MaxDegreeOfParallelism = job.Ahead ? 2 : 1 }, i => opened[i] = Opened(job.Files[i], output));
            MosaicFrame[] frames = [.. opened.OfType<MosaicFrame>()];
            return frames.Length == 0 ? null : make(frames);
        }
        finally
        {
            foreach (MosaicFrame? frame in opened) frame?.Dispose();
        }
    }

    private static MosaicFrame? Opened(string file, Stream output)
    {
        try
        {
            return Announced(file, output);
        }
        catch (UnreadableRawException)
        {
            return null;
        }
    }

    private static MosaicFrame Announced(string file, Stream output)
    {
        Send(output, new WorkerReply(ReplyKind.Opening) { File = file });
        try
        {
            return RawFile.Open(file);
        }
        finally
        {
            Send(output, new WorkerReply(ReplyKind.Opened) { File = file });
        }
    }

    private static void Send(Stream output, WorkerReply reply)
    {
        byte[] line = WorkerMessages.Line(reply);
        lock (output)
        {
            output.Write(line);
            output.Flush();
        }
    }
}
