using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Leafstop.Testing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Report;

/// <summary>Derived: what the page must be for a person who looks at it, on a telephone and on a desk, in every light. Pictures of every page go into artifacts/.</summary>
public sealed class BenchReportInChromiumTests(Chromium chromium, BenchPages benches) : IClassFixture<BenchPages>
{
    private static readonly string[] Themes = ["paper", "sun", "night"];

    public static TheoryData<string, int> Views
    {
        get
        {
            TheoryData<string, int> views = [];
            foreach (string bench in BenchPages.Names)
                views.Add(bench, 390);
            // The widths differ in layout, not in content: two benches tell.
            foreach (string bench in new[] { "sound", "faulty" })
            {
                views.Add(bench, 360);
                views.Add(bench, 1280);
            }

            return views;
        }
    }

    [Theory]
    [MemberData(nameof(Views))]
    public async Task Every_theme_is_accessible_fits_the_screen_and_asks_for_nothing(string bench, int width)
    {
        IPage page = await chromium.PageAsync(width);
        List<string> asked = Listen(page);
        await page.GotoAsync(new Uri(benches.Of(bench)).AbsoluteUri);
        await Settle(page);
        foreach (string theme in Themes)
        {
            await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = theme, Exact = true }).ClickAsync();
            Assert.Equal(theme, await page.Locator("html").GetAttributeAsync("data-theme"));
            await Photograph(page, $"report-{bench.Replace(' ', '-')}-{width}-{theme}");
            Assert.Empty(await Said(page, Sideways));
            Assert.Empty(await Said(page, Colliding));
            AxeResult found = await page.RunAxe();
            Assert.Empty(found.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}: {n.Html}")));
        }

        Assert.Empty(asked);
        await page.Context.CloseAsync();
    }

    /// <summary>Only the page itself is read, from the disk; what it carries as data comes with it.</summary>
    private static List<string> Listen(IPage page)
    {
        List<string> asked = [];
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith("data:", StringComparison.Ordinal) && !(request.IsNavigationRequest && request.Url.StartsWith("file:", StringComparison.Ordinal)))
                asked.Add(request.Url);
        };
        page.WebSocket += (_, socket) => asked.Add(socket.Url);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                asked.Add(message.Text);
        };
        return asked;
    }

    /// <summary>A4 without its margins of 16 mm is 673 px wide.</summary>
    [Fact]
    public async Task On_paper_nothing_is_cut()
    {
        IPage page = await chromium.PageAsync(673);
        await page.GotoAsync(new Uri(benches.Of("faulty")).AbsoluteUri);
        await Settle(page);
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await Photograph(page, "report-faulty-printed");
        Assert.Empty(await Said(page, Sideways));
        Assert.Empty(await Said(page, Colliding));
        await page.Context.CloseAsync();
    }

    /// <summary>Type loaded, everything but the long lists of numbers unfolded.</summary>
    private static async Task Settle(IPage page)
    {
        await page.EvaluateAsync("() => document.querySelectorAll('details:not(.numbers)').forEach(d => d.open = true)");
        await page.EvaluateAsync("() => document.fonts.ready");
        Assert.True(await page.EvaluateAsync<bool>("() => [...document.fonts].some(f => f.status === 'loaded')"), "The page's own type did not load.");
    }

    private static async Task Photograph(IPage page, string name)
    {
        string folder = Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screens")).FullName;
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }

    private static Task<string[]> Said(IPage page, string script) => page.EvaluateAsync<string[]>(script);

    /// <summary>Whatever reaches beyond the page, or is cut by what holds it; inside a region that scrolls sideways only the region counts.</summary>
    private const string Sideways = """
        () => {
          const wide = document.documentElement.clientWidth, found = [];
          if (document.documentElement.scrollWidth > wide) found.push('the page is ' + document.documentElement.scrollWidth + ' px wide');
          for (const e of document.body.querySelectorAll('*')) {
            if (e.closest('.say, .skip, [hidden]') || e.closest('defs')) continue;
            const held = e.parentElement.closest('.scroll');
            if (held && held.scrollWidth > held.clientWidth && held.closest('.numbers')) continue;
            const b = e.getBoundingClientRect();
            if (b.width > 0 && b.height > 0 && (b.right > wide + 0.5 || b.left < -0.5))
              found.push(e.tagName + '.' + (e.getAttribute('class') || '') + ' "' + e.textContent.slice(0, 40) + '" ' + Math.round(b.left) + ' to ' + Math.round(b.right));
            if (e.matches('.scroll') && !e.closest('.numbers') && e.scrollWidth > e.clientWidth) found.push('hidden columns: ' + e.getAttribute('aria-label'));
          }
          return found.slice(0, 12);
        }
        """;

    /// <summary>Words of a drawing that lie on each other: what a person reads as one word.</summary>
    private const string Colliding = """
        () => {
          const found = [];
          for (const svg of document.querySelectorAll('svg')) {
            if (svg.parentElement.closest('svg')) continue;
            const words = [...svg.querySelectorAll('text')].map(t => ({ t: t.textContent, b: t.getBoundingClientRect() })).filter(w => w.b.width > 0);
            words.forEach((a, i) => words.slice(i + 1).forEach(c => {
              // A line box is taller than its letters by about a third.
              const across = Math.min(a.b.right, c.b.right) - Math.max(a.b.left, c.b.left);
              const down = Math.min(a.b.bottom, c.b.bottom) - Math.max(a.b.top, c.b.top);
              if (across > -2 && down > 8) found.push('"' + a.t + '" on "' + c.t + '"');
            }));
          }
          return found.slice(0, 12);
        }
        """;
}
