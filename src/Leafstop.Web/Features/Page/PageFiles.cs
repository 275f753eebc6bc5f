using System.Collections.Concurrent;
using System.Security.Cryptography;
using Microsoft.Net.Http.Headers;

namespace Leafstop.Web.Features.Page;

/// <summary>The files of the page, answered from a list made at the start, packed where the browser takes them packed. A name that is not in the list is no file,
/// so no path leads out of the folder.</summary>
internal sealed class PageFiles
{
    private const string First = "/index.html";

    private static readonly Dictionary<string, string> Types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".json"] = "application/json",
        [".wasm"] = "application/wasm",
        [".woff2"] = "font/woff2",
        [".svg"] = "image/svg+xml",
        [".txt"] = "text/plain; charset=utf-8",
    };

    private readonly Dictionary<string, string> _files;
    private readonly ConcurrentDictionary<string, (byte[] Bytes, string Mark)> _read = new(StringComparer.Ordinal);

    public PageFiles(string folder) => _files = !Directory.Exists(folder) ? [] : Directory
        .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
        .ToDictionary(f => "/" + Path.GetRelativePath(folder, f).Replace(Path.DirectorySeparatorChar, '/'), f => f, StringComparer.Ordinal);

    public async Task Answer(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        if (request.Path.StartsWithSegments("/api") || !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)))
        {
            await next(context);
            return;
        }
        string path = request.Path.Value ?? "/";
        string name = _files.ContainsKey(path) ? path
            // An address of the page itself: which it is the page finds out.
            : !Path.HasExtension(path) ? First : "";
        if (!_files.ContainsKey(name) || !Types.TryGetValue(Path.GetExtension(name), out string? type))
        {
            await (name == First
                ? Results.Text("The page of the workbench is not built into this host. ./leafstop builds it.", statusCode: 503).ExecuteAsync(context)
                : next(context));
            return;
        }
        string accepted = request.Headers.AcceptEncoding.ToString();
        (string packed, string? how) = accepted.Contains("br", StringComparison.Ordinal) && _files.ContainsKey(name + ".br") ? (name + ".br", "br")
            : accepted.Contains("gzip", StringComparison.Ordinal) && _files.ContainsKey(name + ".gz") ? (name + ".gz", "gzip") : (name, null);
        (byte[] bytes, string mark) = _read.GetOrAdd(packed, p =>
        {
            byte[] all = File.ReadAllBytes(_files[p]);
            return (all, $"\"{Convert.ToHexStringLower(SHA256.HashData(all).AsSpan(0, 12))}\"");
        });
        IHeaderDictionary headers = context.Response.Headers;
        // Kept by the browser, but asked for each time: after an update the old page must not talk to the new host.
        headers.CacheControl = "no-cache";
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
}
