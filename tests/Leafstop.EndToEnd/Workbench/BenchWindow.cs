using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Leafstop.Testing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>A window of the workbench: whatever it asks of anybody but its host, and whatever it complains of, is written down.</summary>
public sealed class BenchWindow
{
    private BenchWindow(IPage page) => Page = page;

    public IPage Page { get; }

    /// <summary>Requests to others, and complaints.</summary>
    public List<string> Strange { get; } = [];

    public static async Task<BenchWindow> Open(IPage page, string address)
    {
        BenchWindow window = new(page);
        string own = new Uri(address).GetLeftPart(UriPartial.Authority) + "/";
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(own, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
                window.Strange.Add(request.Url);
        };
        page.WebSocket += (_, socket) => window.Strange.Add(socket.Url);
        page.Console += (_, message) =>
        {
            // Refusals that the page tells in its own words are no complaint.
            if (message.Type is "error" or "warning" && !message.Text.Contains("409 (Conflict)", StringComparison.Ordinal) && !message.Text.Contains("400 (Bad Request)", StringComparison.Ordinal))
                window.Strange.Add(message.Text);
        };
        page.PageError += (_, error) => window.Strange.Add(error);
        await page.GotoAsync(address);
        // The page that the host sent goes when its program has drawn its own.
        await page.Locator("#app:not(:has(.sent)) header.head").WaitForAsync();
        return window;
    }

    public ILocator Button(string name) => Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = name });

    /// <summary>Changes the light.</summary>
    public Task Light(string name) => Page.Locator(".themes button", new PageLocatorOptions { HasText = name }).ClickAsync();

    public Task<string> Verdict() => Page.Locator("h1").InnerTextAsync();

    /// <summary>Waits until the headline says this.</summary>
    public Task Says(string text) => Assertions.Expect(Page.Locator("h1")).ToContainTextAsync(text);

    /// <summary>Goes on with the tab key, as one who has no mouse, until what has the focus is called this; the focus must be seen.</summary>
    public async Task TabTo(string name)
    {
        List<string> met = [];
        for (int i = 0; i < 120; i++)
        {
            await Page.Keyboard.PressAsync("Tab");
            string[] at = await Page.EvaluateAsync<string[]>("""
                () => {
                  const e = document.activeElement, labelled = e.getAttribute('aria-labelledby');
                  const name = e.getAttribute('aria-label') || (labelled ? document.getElementById(labelled).textContent : '') || (e.labels && e.labels.length ? e.labels[0].textContent : '') || e.textContent || '';
                  return [name.trim().replace(/\s+/g, ' '), getComputedStyle(e).outlineStyle];
                }
                """);
            met.Add(at[0]);
            if (!at[0].StartsWith(name, StringComparison.Ordinal))
                continue;
            Assert.NotEqual("none", at[1]);
            return;
        }
        Assert.Fail($"The tab key does not come to \"{name}\": {string.Join(" | ", met.Distinct())}");
    }

    /// <summary>Opens a blank by keys and writes into it.</summary>
    public async Task Writes(string blank, string text)
    {
        await TabTo(blank);
        await Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(Page.Locator("input.hand")).ToBeFocusedAsync();
        await Page.Keyboard.PressAsync("Control+A");
        await Page.Keyboard.TypeAsync(text);
        await Page.Keyboard.PressAsync("Enter");
        // The blank has the focus again, so that the tab key goes on from there.
        await Assertions.Expect(Page.Locator("input.hand")).ToHaveCountAsync(0);
        await Page.WaitForFunctionAsync("() => document.activeElement !== document.body");
    }

    /// <summary>Comes to something by keys and presses it.</summary>
    public async Task Presses(string name)
    {
        await TabTo(name);
        await Page.Keyboard.PressAsync("Enter");
    }

    /// <summary>Looks at it as it is in every light and width: accessible, within the window, photographed.</summary>
    public async Task Looks(string name, params string[] lights)
    {
        (int wide, int high) = (Page.ViewportSize!.Width, Page.ViewportSize.Height);
        string folder = Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screens")).FullName;
        foreach (int width in new[] { 1280, 390 })
        {
            await Page.SetViewportSizeAsync(width, high);
            foreach (string light in lights)
            {
                await Light(light);
                await Page.EvaluateAsync("() => document.fonts.ready");
                // Hiding the caret would put a style into the page, which the page forbids.
                await Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"workbench-{name}-{width}-{light}.png"), FullPage = true, Caret = ScreenshotCaret.Initial });
                Assert.Empty(await Page.EvaluateAsync<string[]>(Sideways));
                AxeResult found = await Page.RunAxe();
                Assert.Empty(found.Violations.SelectMany(v => v.Nodes.Select(n => $"{name} {width} {light} {v.Id}: {n.Html}")));
            }
        }
        await Light(lights[0]);
        await Page.SetViewportSizeAsync(wide, high);
    }

    /// <summary>Looks at it in this window as it is: nothing reaches beyond the page or is cut, no line is too long to be read; photographed.</summary>
    public async Task Fits(string name)
    {
        await Page.EvaluateAsync("() => document.fonts.ready");
        string folder = Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screens")).FullName;
        await Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"fits-{name}.png"), FullPage = Page.ViewportSize!.Width < 3000, Caret = ScreenshotCaret.Initial });
        Assert.Empty((await Page.EvaluateAsync<string[]>(Sideways)).Select(f => $"{name}: {f}"));
        Assert.Empty((await Page.EvaluateAsync<string[]>(Cut)).Select(f => $"{name}: {f}"));
    }

    /// <summary>A picture of what is in the window now.</summary>
    public Task Photograph(string name) => Page.ScreenshotAsync(new PageScreenshotOptions
    {
        Path = Path.Combine(Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screens")).FullName, $"workbench-{name}.png"),
        FullPage = true,
        Caret = ScreenshotCaret.Initial,
    });

    /// <summary>Milliseconds since the page was asked for: an upper bound, because whoever asks has waited for what it shows.</summary>
    public Task<double> SinceOpened() => Page.EvaluateAsync<double>("() => performance.now()");

    /// <summary>Bytes that came over the wire, packed as they were.</summary>
    public Task<double> Fetched() => Page.EvaluateAsync<double>(
        "() => [...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')].reduce((sum, e) => sum + e.transferSize, 0)");

    /// <summary>Writes a figure into artifacts/: speed depends on the machine, so it is told and not judged.</summary>
    public void Note(FormattableString figure) =>
        File.AppendAllText(Path.Combine(Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts")).FullName, "workbench-speed.txt"), FormattableString.Invariant(figure) + "\n");

    public async Task Close() => await Page.Context.CloseAsync();

    /// <summary>Text that an edge cuts off, and lines that are too long: the measure is 62 characters of this type, which holds up to 85 of running text.</summary>
    private const string Cut = """
        () => {
          const found = [];
          for (const e of document.querySelectorAll('main *, header *')) {
            if (e.closest('.say, .skip, svg, details:not([open]) > :not(summary)') || e.parentElement.closest('.numbers .scroll')) continue;
            const style = getComputedStyle(e);
            // What only a screen reader meets is a pixel wide on purpose.
            if (e.clientWidth > 1 && style.overflowX !== 'visible' && style.overflowX !== 'auto' && e.scrollWidth > e.clientWidth + 1 && !e.matches('.card-mat, input, select, textarea'))
              found.push(e.tagName + ' is cut: "' + e.textContent.slice(0, 40) + '"');
            if (!e.matches('p, li, figcaption, dd') || e.querySelector('p, li, table, ul')) continue;
            const range = document.createRange();
            range.selectNodeContents(e);
            const tops = new Set([...range.getClientRects()].filter(r => r.width > 2).map(r => Math.round(r.bottom / 12)));
            const letters = e.textContent.trim().replace(/\s+/g, ' ').length;
            if (tops.size > 3 && letters / tops.size > 85)
              found.push(Math.round(letters / tops.size) + ' letters a line: "' + e.textContent.trim().slice(0, 40) + '"');
          }
          return found.slice(0, 12);
        }
        """;

    /// <summary>Whatever reaches beyond the page.</summary>
    private const string Sideways = """
        () => {
          const wide = document.documentElement.clientWidth, found = [];
          if (document.documentElement.scrollWidth > wide) found.push('the page is ' + document.documentElement.scrollWidth + ' px wide');
          for (const e of document.body.querySelectorAll('main *, header *')) {
            // A long list of numbers scrolls in its own region, which is held against the page like all else.
            if (e.closest('.say, .skip, [hidden], .card-mat') || e.parentElement.closest('.numbers .scroll')) continue;
            const b = e.getBoundingClientRect();
            if (b.width > 0 && b.height > 0 && (b.right > wide + 0.5 || b.left < -0.5))
              found.push(e.tagName + ' "' + e.textContent.slice(0, 40) + '" ' + Math.round(b.left) + ' to ' + Math.round(b.right));
          }
          return found.slice(0, 12);
        }
        """;
}
