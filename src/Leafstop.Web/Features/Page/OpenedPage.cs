using System.Text;
using System.Text.Json;
using Leafstop.Browser;
using Leafstop.Browser.Contracts;
using Leafstop.Browser.Pages;
using Leafstop.Browser.Parts;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Features.Desk;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.JSInterop;

namespace Leafstop.Web.Features.Page;

/// <summary>The page as it is opened: the host draws its first picture with the page's own parts, so that it can be read and used while the browser still loads the program of the page.</summary>
internal sealed class OpenedPage
{
    /// <summary>Between two of these stands in the file what is shown until the program runs.</summary>
    private const string Sent = "<!--sent-->";

    /// <summary>In the file for <see cref="PageFiles.Mark"/>.</summary>
    private const string Marked = "{mark}";

    private readonly CameraStore _cameras;
    private readonly JudgementStore _judgings;
    private readonly Lazy<string[]?> _around;

    /// <param name="files">The files of the page; a host without them opens nothing.</param>
    /// <param name="cameras">The kept cameras, for the first page.</param>
    /// <param name="judgings">Their judgings.</param>
    public OpenedPage(PageFiles files, CameraStore cameras, JudgementStore judgings)
    {
        (_cameras, _judgings) = (cameras, judgings);
        _around = new(() => files.ReadFirst()?.Replace(Marked, files.Mark, StringComparison.Ordinal).Split(Sent));
    }

    public async Task Answer(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        // An address without a suffix is one of the page itself: which it is the page finds out.
        if (request.Path.StartsWithSegments("/api") || Path.HasExtension(request.Path.Value) || !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)))
        {
            await next(context);
            return;
        }
        if (_around.Value is not [var before, _, var after])
        {
            await Results.Text("The page of the workbench is not built into this host. ./leafstop builds it.", statusCode: 503).ExecuteAsync(context);
            return;
        }
        byte[] page = Encoding.UTF8.GetBytes(before + await Drawn(request) + after);
        context.Response.Headers.CacheControl = "no-cache";
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.ContentLength = page.Length;
        if (HttpMethods.IsGet(request.Method))
            await context.Response.Body.WriteAsync(page, context.RequestAborted);
    }

    private async Task<string> Drawn(HttpRequest request)
    {
        DeskCameraView[]? desk = request.Path == "/" ? Desk() : null;
        await using ServiceProvider services = new ServiceCollection()
            .AddSingleton(new SentAlong(desk))
            .AddSingleton(new ThisBrowser(new NoScript(), ""))
            .AddSingleton(new Leafstop.Browser.Host((_, address, _) => throw new NotSupportedException($"{address} is asked by a browser.")))
            .AddSingleton<NavigationManager>(new OpenedAddress(request))
            .BuildServiceProvider();
        await using HtmlRenderer renderer = new(services, NullLoggerFactory.Instance);
        ParameterView frame = ParameterView.FromDictionary(new Dictionary<string, object?> { [nameof(LayoutComponentBase.Body)] = desk is null ? Waiting : First });
        string drawn = await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<Frame>(frame)).ToHtmlString());
        // The encoder leaves no < in it, so it ends where it is meant to.
        string along = desk is null ? "" : $"""<script type="application/json" id="sent-along">{JsonSerializer.Serialize(desk, JsonSerializerOptions.Web)}</script>""";
        return $"""<div class="sent">{drawn}</div>{along}""";
    }

    private static readonly RenderFragment First = page =>
    {
        page.OpenComponent<Start>(0);
        page.CloseComponent();
    };

    private static readonly RenderFragment Waiting = page =>
        page.AddMarkupContent(0, """<p class="topline"><b>Leafstop</b><span>The page is being opened.</span></p>""");

    private DeskCameraView[]? Desk()
    {
        try
        {
            return DeskRoutes.View(_cameras, _judgings);
        }
        catch (UnusableDataFileException)
        {
            // The page asks once more when it runs, and tells why there is none.
            return null;
        }
    }

    private sealed class OpenedAddress : NavigationManager
    {
        public OpenedAddress(HttpRequest request)
        {
            string root = $"{request.Scheme}://{request.Host}/";
            Initialize(root, root + request.Path.ToUriComponent().TrimStart('/') + request.QueryString);
        }
    }

    /// <summary>There is no browser here yet: parts ask it for nothing until they have been drawn.</summary>
    private sealed class NoScript : IJSRuntime
    {
        public ValueTask<T> InvokeAsync<T>(string identifier, object?[]? args) => throw new NotSupportedException($"{identifier} needs a browser.");

        public ValueTask<T> InvokeAsync<T>(string identifier, CancellationToken cancellationToken, object?[]? args) => InvokeAsync<T>(identifier, args);
    }
}
