using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>A pocket page that is open on a telephone: taps are counted, and whatever it asks for is written down.</summary>
public sealed class PocketScreen
{
    private PocketScreen(IPage page) => Page = page;

    public IPage Page { get; }

    /// <summary>Taps so far.</summary>
    public int Taps { get; private set; }

    /// <summary>Requests, and what the page complains of.</summary>
    public List<string> Asked { get; } = [];

    public Task<string> Verdict => Text(".pv");

    public Task<string> Iso => Text(".iso data");

    public static async Task<PocketScreen> Open(IPage page, string file)
    {
        PocketScreen screen = new(page);
        // The page itself comes from the disk; what it carries is read from itself.
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith("data:", StringComparison.Ordinal) && !request.Url.StartsWith("blob:", StringComparison.Ordinal)
                && !(request.IsNavigationRequest && request.Url.StartsWith("file:", StringComparison.Ordinal)))
            {
                screen.Asked.Add(request.Url);
            }
        };
        page.WebSocket += (_, socket) => screen.Asked.Add(socket.Url);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                screen.Asked.Add(message.Text);
        };
        page.PageError += (_, error) => screen.Asked.Add(error);
        await page.GotoAsync(new Uri(file).AbsoluteUri);
        await screen.Ready();
        return screen;
    }

    public async Task Ready() => await Page.WaitForFunctionAsync("() => document.documentElement.dataset.ready");

    /// <summary>Taps what carries these words, as a finger does.</summary>
    public async Task Tap(string name)
    {
        await Page.Locator("main").GetByRole(AriaRole.Button, new LocatorGetByRoleOptions { Name = name, Exact = true }).First.TapAsync();
        Taps++;
    }

    /// <summary>Taps a dial's value, which opens its sheet.</summary>
    public async Task Opens(string dial)
    {
        await Page.Locator($"button.val[data-act^='go:pick:{dial}:']:visible").First.TapAsync();
        Taps++;
    }

    /// <summary>Taps a dial's value, then a value of its sheet: two taps.</summary>
    public async Task Pick(string dial, string value)
    {
        await Opens(dial);
        await Tap(value);
    }

    public async Task<string> Text(string selector) => (await Page.Locator("main").Locator(selector).First.TextContentAsync() ?? "").Trim();

    public async Task<string> Main() => await Page.Locator("main").InnerTextAsync();

    public async Task Photograph(string name)
    {
        await Page.EvaluateAsync("() => document.fonts.ready");
        string folder = Directory.CreateDirectory(Path.Combine(Leafstop.Testing.Repository.Root, "artifacts", "screens")).FullName;
        await Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name + ".png") });
    }

    public async Task Close() => await Page.Context.CloseAsync();
}
