using System.Text;
using System.Text.Json;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Tests.Decoding;

public sealed class DecodingWorkerTests : IDisposable
{
    private readonly ScratchFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Each_file_is_announced_before_it_is_answered_and_the_job_is_closed()
    {
        string good = _folder.Write("two\nlines.dng", new PlainDng().ToBytes()), empty = _folder.Write("empty.dng", []);
        var replies = Replies(new WorkerJob(JobKind.Headers, [good, empty]));
        Assert.Equal([ReplyKind.Opening, ReplyKind.Header, ReplyKind.Opening, ReplyKind.Unread, ReplyKind.Done], replies.Select(r => r.Kind));
        Assert.Equal([good, good, empty, empty, null], replies.Select(r => r.File));
    }

    [Fact]
    public void No_job_is_no_answer() => Assert.Empty(Replies());

    private static List<WorkerReply> Replies(params WorkerJob[] jobs)
    {
        using var input = new MemoryStream([.. jobs.SelectMany(WorkerMessages.Line)]);
        using var output = new MemoryStream();
        DecodingWorker.Run(input, output);
        string[] lines = Encoding.UTF8.GetString(output.ToArray()).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        return [.. lines.Select(l => JsonSerializer.Deserialize(l, WorkerMessages.Default.WorkerReply)!)];
    }
}
