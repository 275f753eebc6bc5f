using System.Text.RegularExpressions;
using Microsoft.Playwright;
using SkiaSharp;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: the workbench as a person meets it, in a real browser over the program as it is built. One workbench for all; pictures go into artifacts/.</summary>
public sealed class WorkbenchTests(Chromium chromium, RunningWorkbench workbench) : IClassFixture<Chromium>, IClassFixture<RunningWorkbench>
{
    [Fact]
    public async Task The_first_page_and_the_set_up_are_accessible_in_every_light_and_the_key_leaves_the_address_bar()
    {
        BenchWindow window = await BenchWindow.Open(await chromium.PageAsync(1280, isOffline: false), workbench.Address);
        Assert.DoesNotContain("key", window.Page.Url, StringComparison.Ordinal);
        await window.Says("Body A");
        double cold = await window.SinceOpened(), fetched = await window.Fetched();
        await window.Page.ReloadAsync();
        await window.Says("Body A");
        window.Note($"first page: {cold:0} ms cold, {await window.SinceOpened():0} ms warm, {fetched / 1e6:0.00} MB fetched");
        await window.Looks("start", "paper", "sun", "night");
        await window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Judging" }).ClickAsync();
        await window.Says("What noise do you mind");
        await window.Button("Width of the print: 60 cm, change").ClickAsync();
        await window.Page.Keyboard.TypeAsync("a wall");
        await window.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "Width of the print" })).ToBeVisibleAsync();
        await window.Looks("judging-set-up", "paper", "night");
        await window.Button("Folder: ").ClickAsync();
        await window.Button("Take this folder").WaitForAsync();
        await window.Looks("judging-folder", "paper", "night");
        Assert.Empty(window.Strange);
        await window.Close();

        // A browser that has not shown the key sees nothing.
        IPage stranger = await chromium.PageAsync(390, isOffline: false);
        await stranger.GotoAsync(new Uri(workbench.Address).GetLeftPart(UriPartial.Authority) + "/judging");
        Assert.Contains("shut here", await stranger.InnerTextAsync("h1"), StringComparison.Ordinal);
        await stranger.Context.CloseAsync();
    }

    // The folder need not be named again: it was when the camera was measured.
    [Fact]
    public async Task Judge_explains_in_the_terminal_and_opens_the_page_with_the_frames_that_the_camera_was_measured_from()
    {
        (string said, string address) = workbench.Opens("judge", "--print", "15cm", "--distance", "60cm", "--camera", "body a", "--no-open");
        Assert.Contains("Two questions find them", said, StringComparison.Ordinal);
        Assert.Contains(workbench.Bench, said, StringComparison.Ordinal);
        Assert.Contains($"/judging?folder={Uri.EscapeDataString(workbench.Bench)}&print=15cm&distance=60cm&camera=Body%20A&key=", address, StringComparison.Ordinal);
        BenchWindow window = await BenchWindow.Open(await chromium.PageAsync(1280, isOffline: false), At("judging?folder=" + Uri.EscapeDataString(workbench.Bench) + "&print=15cm&distance=60cm&camera=Body%20A"));
        await Assertions.Expect(window.Page.Locator("p.ask")).ToContainTextAsync("15 cm");
        await Assertions.Expect(window.Page.Locator("p.ask")).ToContainTextAsync("Kitchen bench");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    // An eye that goes by the grain of the mid tone alone, half-way between ISO 400 and 800 for the one question and between 1600 and 3200 for the other, comes to an end. It sees a few pixels only:
    // whether limits are right is for the simulated observers of the judging itself.
    [Fact]
    public async Task A_judging_goes_by_keys_alone_to_an_end_though_the_host_is_killed_on_the_way()
    {
        IPage page = await chromium.PageAsync(1280, 900, isOffline: false);
        await page.AddInitScriptAsync(Grain);
        BenchWindow window = await BenchWindow.Open(page, At("judging"));
        await SetUp(window);
        await window.Page.Locator(".answers").WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
        string id = window.Page.Url.Split('/')[^1];
        double clean = await Between(window.Page, id, 400, 800), stretch = await Between(window.Page, id, 1600, 3200);
        await window.Page.ReloadAsync();
        await window.Page.Locator(".answers").WaitForAsync();
        Assert.Contains("None answered yet", await window.Page.InnerTextAsync(".prog"), StringComparison.Ordinal);

        for (int i = 0; i < 6; i++)
            await Answer(window.Page, i, clean, stretch);
        await window.Page.Locator(".mat[aria-busy=false]").WaitForAsync();
        await window.Page.Keyboard.PressAsync("Backspace");
        await Answered(window.Page, 5);
        await window.Looks("judging", "paper", "night");
        Assert.DoesNotContain("ISO 1", await window.Page.InnerTextAsync("main"), StringComparison.Ordinal);

        // A second window of the same judging: what one answers, the other does not answer again.
        BenchWindow second = await BenchWindow.Open(await window.Page.Context.NewPageAsync(), window.Page.Url);
        await second.Page.Locator(".mat[aria-busy=false]").WaitForAsync();
        await Answer(window.Page, 5, clean, stretch);
        await second.Page.Keyboard.PressAsync("u");
        await Answered(second.Page, 6);
        await Assertions.Expect(second.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "answered already" })).ToBeVisibleAsync();
        Assert.Empty(second.Strange);
        await second.Page.CloseAsync();
        Assert.Empty(window.Strange);

        await workbench.Kill();
        await window.Page.GotoAsync(At("judging"));
        await window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Go on" }).ClickAsync();
        await window.Page.Locator(".answers").WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
        await Answered(window.Page, 6);
        int answers = 6;
        while (await window.Page.Locator(".answers").CountAsync() > 0 && answers < 130)
            await Answer(window.Page, answers++, clean, stretch);
        await window.Page.Locator("h1:not(.q)").WaitForAsync();
        await window.Page.GotoAsync(At(""));
        await window.Says("Body A");
        await window.Close();
    }

    [Fact]
    public async Task At_a_fraction_of_a_pixel_the_screen_shows_the_pixels_of_the_picture()
    {
        IBrowser browser = await chromium.OnScreenOf(1.5);
        IBrowserContext context = await browser.NewContextAsync(new BrowserNewContextOptions { ViewportSize = ViewportSize.NoViewport });
        BenchWindow window = await BenchWindow.Open(await context.NewPageAsync(), At("judging"));
        await SetUp(window);
        ILocator canvas = window.Page.Locator(".mat canvas").Last;
        await window.Page.Locator(".mat canvas[style]").Last.WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
        await canvas.ScrollIntoViewIfNeededAsync();
        Assert.Equal(1.5, await window.Page.EvaluateAsync<double>("() => devicePixelRatio"));
        int[] drawn = await canvas.EvaluateAsync<int[]>("c => [...c.getContext('2d').getImageData(0, 0, c.width, c.height).data]");
        double[] place = await canvas.EvaluateAsync<double[]>("c => { const b = c.getBoundingClientRect(), r = devicePixelRatio; return [b.left * r, b.top * r, c.width, c.height]; }");
        using SKBitmap screen = SKBitmap.Decode(await window.Page.ScreenshotAsync(new PageScreenshotOptions { Scale = ScreenshotScale.Device, Caret = ScreenshotCaret.Initial }));
        (int left, int top, int width, int height) = ((int)Math.Round(place[0]), (int)Math.Round(place[1]), (int)place[2], (int)place[3]);
        int differ = 0;
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                SKColor seen = screen.GetPixel(left + x, top + y);
                int at = (y * width + x) * 4;
                if (seen.Red != drawn[at] || seen.Green != drawn[at + 1] || seen.Blue != drawn[at + 2])
                    differ++;
            }
        }
        Assert.True(width > 20 && drawn.Distinct().Count() > 10, "There is no picture.");
        Assert.Equal(0, differ);
        await browser.CloseAsync();
        Assert.Equal(0, await workbench.Interrupt());
    }

    private string At(string page) => workbench.Address.Replace("/?", $"/{page}{(page.Contains('?') ? '&' : '?')}", StringComparison.Ordinal);

    /// <summary>A print of 12 cm, at which the crops of the small sample are some pixels wide; the screen is matched where it was not.</summary>
    private static async Task SetUp(BenchWindow window)
    {
        await window.Says("What noise do you mind");
        await window.Light("paper");
        await window.Button("Width of the print: 60 cm, change").ClickAsync();
        await window.Page.Keyboard.PressAsync("Control+A");
        await window.Page.Keyboard.TypeAsync("12cm");
        await window.Page.Keyboard.PressAsync("Enter");
        // A fine screen: the eye has more pixels to go by.
        await window.Page.GetByRole(AriaRole.Slider).PressAsync("End");
        await window.Button("smaller").ClickAsync();
        await window.Button("It is as large as the card").ClickAsync();
        await window.Button("Begin").ClickAsync();
    }

    private static Task Answered(IPage page, int count) => Assertions.Expect(page.Locator(".prog [role=status]")).ToHaveTextAsync($"{count} answered.");

    /// <summary>Looks at the mid tone and presses a key.</summary>
    private static async Task Answer(IPage page, int given, double clean, double stretch)
    {
        await page.Locator(".mat[aria-busy=false]").WaitForAsync();
        double grain = await page.EvaluateAsync<double>("() => grainOf(document.querySelectorAll('.mat canvas')[1])");
        bool disturbs = (await page.InnerTextAsync("h1")).Contains("disturb", StringComparison.Ordinal);
        await page.Keyboard.PressAsync((disturbs ? grain > clean : grain < stretch) ? "ArrowRight" : "ArrowLeft");
        ILocator next = page.Locator(".prog [role=status]", new PageLocatorOptions { HasTextRegex = new Regex($"^{given + 1} answered") });
        await next.Or(page.Locator("h1:not(.q)")).First.WaitForAsync();
    }

    /// <summary>The grain half-way between two levels, in the mid tone, looked up by a side-by-side check.</summary>
    private static Task<double> Between(IPage page, string id, int cleanerIso, int noisierIso) =>
        page.EvaluateAsync<double>("([id, a, b]) => grainBetween(id, a, b)", new object[] { id, cleanerIso, noisierIso });

    /// <summary>Strength of the fine grain: what a smooth shade leaves at nothing.</summary>
    private const string Grain = """
        (() => {
          window.grainOf = c => {
            // From a copy: the browser complains of a canvas on the page that is read often.
            const w = c.width, h = c.height, pen = new OffscreenCanvas(w, h).getContext('2d', { willReadFrequently: true });
            pen.drawImage(c, 0, 0);
            const p = pen.getImageData(0, 0, w, h).data;
            let sum = 0;
            const g = (x, y) => p[4 * (y * w + x) + 1];
            for (let y = 0; y + 1 < h; y++) for (let x = 0; x + 1 < w; x++) { const d = g(x, y) - g(x + 1, y) - g(x, y + 1) + g(x + 1, y + 1); sum += d * d; }
            return Math.sqrt(sum / 4 / ((w - 1) * (h - 1)));
          };
          const picture = async address => {
            const b = await createImageBitmap(await (await fetch(address)).blob());
            const c = new OffscreenCanvas(b.width, b.height);
            c.getContext('2d').drawImage(b, 0, 0);
            return c;
          };
          window.grainBetween = async (id, cleanerIso, noisierIso) => {
            const at = '/api/judgings/' + id + '/side-by-side';
            const send = (to, body) => fetch(to, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });
            await send(at, { cleanerIso, noisierIso });
            let pair = await (await fetch(at + '/trial')).json();
            while (pair.region !== 'mid') {
              await send(at + '/answers', { token: pair.token, reply: 'unsure' });
              pair = await (await fetch(at + '/trial')).json();
            }
            const grain = Math.sqrt(grainOf(await picture(pair.left)) * grainOf(await picture(pair.right)));
            await fetch(at, { method: 'DELETE' });
            return grain;
          };
        })();
        """;
}
