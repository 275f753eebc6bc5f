using Leafstop.Testing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: what is fetched for the page stays within its bound, and what the host sends of a page can be read and used before the program of the page is there.</summary>
public sealed class OpeningTests(Chromium chromium, RunningWorkbench workbench) : IClassFixture<RunningWorkbench>
{
    private const double MostBytes = 2.5e6;

    [Fact]
    public void Everything_that_a_browser_fetches_of_the_page_is_small_enough_packed()
    {
        string page = Path.Combine(Repository.Root, "build", "page");
        Assert.SkipUnless(Directory.Exists(page), "the page was not built by ./leafstop before");
        // A browser takes the packed file where there is one, and nobody fetches the licence of the type.
        long[] sizes = [.. Directory.EnumerateFiles(page, "*", SearchOption.AllDirectories)
            .Where(f => Path.GetExtension(f) is not ".gz" && !f.Contains(".txt", StringComparison.Ordinal) && !File.Exists(f + ".br")).Select(f => new FileInfo(f).Length)];
        Assert.True(sizes.Length > 30, $"{sizes.Length} files are no page.");
        Assert.InRange(sizes.Sum(), 1e6, MostBytes);
    }

    [Fact]
    public async Task The_first_page_is_read_and_used_before_its_program_is_there_and_goes_on_where_one_went()
    {
        TaskCompletionSource loaded = new();
        IPage page = await chromium.PageAsync(1280, isOffline: false);
        await HoldsBack(page, loaded.Task);
        await page.GotoAsync(workbench.Address, new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Body A");
        foreach (string light in new[] { "night", "sun", "paper" })
        {
            await page.Locator(".themes button", new PageLocatorOptions { HasText = light }).ClickAsync();
            Assert.Equal(light, await page.EvaluateAsync<string>("() => document.documentElement.dataset.theme"));
            await Assertions.Expect(page.Locator(".themes [aria-pressed=true]")).ToHaveTextAsync(light);
        }
        string before = await page.InnerTextAsync("main");
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Plan" }).FocusAsync();
        loaded.SetResult();
        await page.Locator(".sent").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
        // The same page, word for word, in the same light, and the link by which one was about to go on has the focus still.
        Assert.Equal(before, await page.InnerTextAsync("main"));
        await Assertions.Expect(page.Locator(".themes [aria-pressed=true]")).ToHaveTextAsync("paper");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Plan" })).ToBeFocusedAsync();
        await page.Context.CloseAsync();

        loaded = new();
        page = await chromium.PageAsync(1280, isOffline: false);
        await HoldsBack(page, loaded.Task);
        await page.GotoAsync(workbench.Address, new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Plan" }).PressAsync("Enter");
        await Assertions.Expect(page.GetByText("The page is being opened.")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("nav [aria-current=page]")).ToHaveTextAsync("Plan");
        loaded.SetResult();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("ISO 500", new LocatorAssertionsToContainTextOptions { Timeout = 30_000 });
        // Back is where one came from.
        await page.GoBackAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Body A");
        await page.Context.CloseAsync();
    }

    // Derived: the two are the same parts with the same data, so everything stands at the same place, in the same size and colour: nothing moves or flashes when the program takes over.
    // Not pixel for pixel: a letter that is painted again may be smoothed otherwise. The two pictures go into artifacts/.
    [Theory]
    [InlineData("night")]
    [InlineData("paper")]
    public async Task What_the_host_drew_is_what_the_program_draws(string light)
    {
        TaskCompletionSource loaded = new();
        IPage page = await chromium.PageAsync(1280, isOffline: false);
        await page.Context.AddCookiesAsync([new Cookie { Name = "leafstop.light", Value = light, Url = new Uri(workbench.Address).GetLeftPart(UriPartial.Authority) }]);
        await HoldsBack(page, loaded.Task);
        await page.GotoAsync(workbench.Address, new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await page.EvaluateAsync("() => document.fonts.ready");
        await Assertions.Expect(page.Locator(".sent")).ToHaveCountAsync(1);
        string[] sent = await page.EvaluateAsync<string[]>(Places);
        await Picture(page, $"start-sent-{light}.png");
        loaded.SetResult();
        await page.Locator(".sent").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
        string[] own = await page.EvaluateAsync<string[]>(Places);
        await Picture(page, $"start-own-{light}.png");
        Assert.True(sent.Length > 20, $"{sent.Length} things are no page.");
        Assert.Equal(sent, own);
        await page.Context.CloseAsync();
    }

    /// <summary>Keeps the program of the page on its way until then.</summary>
    private static async Task HoldsBack(IPage page, Task until) => await page.RouteAsync("**/_framework/*.wasm*", async route =>
    {
        await until;
        await route.ContinueAsync();
    });

    /// <summary>Where everything stands, how large, in what type and colours.</summary>
    private const string Places = """
        () => [...document.querySelectorAll('header.head, header.head *, main, main *')].map(e => {
          const box = e.getBoundingClientRect(), style = getComputedStyle(e);
          return [e.tagName, e.children.length ? '' : e.textContent, box.left.toFixed(2), box.top.toFixed(2), box.width.toFixed(2), box.height.toFixed(2),
            style.color, style.backgroundColor, style.borderBottomColor, style.borderBottomWidth, style.fontFamily, style.fontSize, style.fontWeight, style.fontStyle].join(' ');
        })
        """;

    private static async Task Picture(IPage page, string name)
    {
        string folder = Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screens")).FullName;
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name), FullPage = true, Caret = ScreenshotCaret.Initial });
    }
}
