using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Net.Http.Headers;

namespace Leafstop.Web.Features.Page;

/// <summary>The files of the page, answered from a list made at the start, packed where the browser takes them packed. A name that is not in the list is no file,
/// so no path leads out of the folder.</summary>
internal sealed class PageFiles
{
    /// <summary>The file that every address of the page begins with; it is not answered as it is.</summary>
    private const string First = "/index.html";

    private static readonly Dictionary<string, string> Types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".json"] = "application/json",
        [".wasm"] = "application/wasm",
        [".woff2"] = "font/woff2",
        [".svg"] = "image/svg+xml",
        [".txt"] = "text/plain; charset=utf-8",
    };

    private readonly Dictionary<string, string> _files;
    private readonly Lazy<string> _mark;
    private readonly ConcurrentDictionary<string, (byte[] Bytes, string Mark)> _read = new(StringComparer.Ordinal);

    public PageFiles(string folder)
    {
        _files = !Directory.Exists(folder) ? [] : Directory
            .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .ToDictionary(f => "/" + Path.GetRelativePath(folder, f).Replace(Path.DirectorySeparatorChar, '/'), f => f, StringComparer.Ordinal);
        _mark = new(MarkOfAll);
    }

    /// <summary>Stands for everything in the files together: an address that ends with it names these files and no later ones.</summary>
    public string Mark => _mark.Value;

    /// <summary>The text that every address of the page begins with; null where the page is not built into this host.</summary>
    public string? ReadFirst() => _files.TryGetValue(First, out string? file) ? File.ReadAllText(file) : null;

    public async Task Answer(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        string name = request.Path.Value ?? "/";
        if (!(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) || !_files.ContainsKey(name) || !Types.TryGetValue(Path.GetExtension(name), out string? type))
        {
            await next(context);
            return;
        }
        string accepted = request.Headers.AcceptEncoding.ToString();
        (string packed, string? how) = accepted.Contains("br", StringComparison.Ordinal) && _files.ContainsKey(name + ".br") ? (name + ".br", "br")
            : accepted.Contains("gzip", StringComparison.Ordinal) && _files.ContainsKey(name + ".gz") ? (name + ".gz", "gzip") : (name, null);
        (byte[] bytes, string mark) = Read(packed);
        IHeaderDictionary headers = context.Response.Headers;
        // After an update the old page must not talk to the new host. What is asked for under the mark of these files may be kept for good; all else is asked for each time.
        headers.CacheControl = request.QueryString.Value == "?" + Mark ? "private, max-age=31536000, immutable" : "no-cache";
        headers.ETag = mark;
        headers.Vary = HeaderNames.AcceptEncoding;
        if (request.Headers.IfNoneMatch.Contains(mark))
        {
            context.Response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }
        if (how is not null)
            headers.ContentEncoding = how;
        context.Response.ContentType = type;
        context.Response.ContentLength = bytes.Length;
        if (HttpMethods.IsGet(request.Method))
            await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }

    private (byte[] Bytes, string Mark) Read(string name) => _read.GetOrAdd(name, n =>
    {
        byte[] all = File.ReadAllBytes(_files[n]);
        return (all, $"\"{Convert.ToHexStringLower(SHA256.HashData(all).AsSpan(0, 12))}\"");
    });

    private string MarkOfAll()
    {
        using IncrementalHash all = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        // Packed files hold what the plain ones hold, in a third of the bytes.
        foreach (string name in _files.Keys.Where(n => !n.EndsWith(".gz", StringComparison.Ordinal) && !_files.ContainsKey(n + ".br")).Order(StringComparer.Ordinal))
            all.AppendData(Encoding.UTF8.GetBytes(name + Read(name).Mark));
        return Convert.ToHexStringLower(all.GetHashAndReset().AsSpan(0, 8));
    }
}
