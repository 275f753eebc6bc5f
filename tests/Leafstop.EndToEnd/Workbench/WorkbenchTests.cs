using System.Globalization;
using System.Text.Json;
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

    // Derived: an eye that reads the pixels of the mid tone on the page and knows nothing else minds grain from one strength on and signs up to twice that. Grain is the square root of the noise power, which
    // doubles with every stop of ISO, so its two limits lie two stops apart; and once the levels are told, after the end, the grain that it saw says at which ISO its limits lie. A third of a stop is what
    // a judging promises, or it says that it is less sure.
    [Fact]
    public async Task A_judging_by_an_eye_that_reads_pixels_ends_in_its_own_limits_and_keeps_them_by_keys_alone_though_the_host_is_killed_on_the_way()
    {
        IPage page = await chromium.PageAsync(1280, 900, isOffline: false);
        await page.AddInitScriptAsync(Grain);
        BenchWindow window = await BenchWindow.Open(page, At("judging"));
        await SetUp(window);
        await window.Page.Locator(".answers").WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
        Assert.Contains("None answered yet", await window.Page.InnerTextAsync(".prog"), StringComparison.Ordinal);

        List<Look> looks = [];
        for (int i = 0; i < 6; i++)
            looks.Add(await Answer(window.Page, i));
        await window.Page.Locator(".mat[aria-busy=false]").WaitForAsync();
        await window.Page.Keyboard.PressAsync("Backspace");
        looks.RemoveAt(5);
        await Answered(window.Page, 5);
        await window.Looks("judging", "paper", "night");
        Assert.DoesNotContain("ISO 1", await window.Page.InnerTextAsync("main"), StringComparison.Ordinal);

        // A second window of the same judging: what one answers, the other does not answer again.
        BenchWindow second = await BenchWindow.Open(await window.Page.Context.NewPageAsync(), window.Page.Url);
        await second.Page.Locator(".mat[aria-busy=false]").WaitForAsync();
        looks.Add(await Answer(window.Page, 5));
        await second.Page.Keyboard.PressAsync("u");
        await Answered(second.Page, 6);
        await Assertions.Expect(second.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "answered already" })).ToBeVisibleAsync();
        Assert.Empty(second.Strange);
        await second.Page.CloseAsync();
        Assert.Empty(window.Strange);

        await workbench.Kill();
        await window.Page.GotoAsync(At("judging"));
        await window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Go on" }).PressAsync("Enter");
        await window.Page.Locator(".answers").WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
        await Answered(window.Page, 6);
        while (await window.Page.Locator(".answers").CountAsync() > 0 && looks.Count < 130)
            looks.Add(await Answer(window.Page, looks.Count));

        // The end: a sentence with two limits, kept with the camera.
        await window.Page.Locator("h1:not(.q)").WaitForAsync();
        string verdict = await window.Verdict();
        Match told = Regex.Match(verdict, @"^Clean (\d+), stretch (\d+)\.$");
        Assert.True(told.Success, verdict + " Grain seen: " + string.Join(", ", looks.Select(l => l.Grain.ToString("0.00", CultureInfo.InvariantCulture)).Distinct()) + "\n" + await window.Page.InnerTextAsync("main"));
        await Assertions.Expect(window.Page.GetByText("Kept: your plans use it from now on.")).ToBeVisibleAsync();
        await window.Looks("judging-outcome", "paper", "night");
        AreOwn(looks, JsonDocument.Parse(workbench.Run("cameras", "export", "Body A").Out).RootElement.GetProperty("judgings")[0], window);
        Assert.Contains($"clean {told.Groups[1].Value}", workbench.Run("cameras", "show", "Body A").Out.ReplaceLineEndings(" "), StringComparison.OrdinalIgnoreCase);
        await window.Page.GotoAsync(At(""));
        await window.Says($"Body A: clean {told.Groups[1].Value}, stretch {told.Groups[2].Value}.");
        await window.Looks("start-judged", "paper", "night");
        await window.Page.GotoAsync(At("cameras"));
        await Assertions.Expect(window.Page.GetByText($"Clean {told.Groups[1].Value}, stretch {told.Groups[2].Value}")).ToBeVisibleAsync();
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
        await window.Page.Locator(".mat[aria-busy=false] canvas[style]").Last.WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });
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
        Assert.True(width > 20 && drawn.Distinct().Count() > 10, $"There is no picture: {width} pixels wide, {drawn.Distinct().Count()} values.");
        Assert.Equal(0, differ);
        await browser.CloseAsync();
        Assert.Equal(0, await workbench.Interrupt());
    }

    private string At(string page) => workbench.Address.Replace("/?", $"/{page}{(page.Contains('?') ? '&' : '?')}", StringComparison.Ordinal);

    /// <summary>A print of 12 cm, at which the crops of the small sample are some pixels wide; the screen is matched where it was not. By keys alone.</summary>
    private static async Task SetUp(BenchWindow window)
    {
        await window.Says("What noise do you mind");
        await window.Presses("paper");
        await window.Writes("Width of the print: 60 cm, change", "12cm");
        // A fine screen: the eye has more pixels to go by.
        await window.TabTo("Size of the outline");
        await window.Page.Keyboard.PressAsync("End");
        await window.Presses("larger");
        await window.Presses("It is as large as the card");
        await window.Button("Begin").WaitForAsync();
        await window.Presses("Begin");
    }

    private static Task Answered(IPage page, int count) => Assertions.Expect(page.Locator(".prog [role=status]")).ToHaveTextAsync($"{count} answered.");

    // Steps of 8 bits: between those of the sample's ISO 400 and 800, and of 1600 and 3200.
    private const double Minded = 0.95, Signed = 2 * Minded;

    /// <summary>Looks at the mid tone and presses a key.</summary>
    private static async Task<Look> Answer(IPage page, int given)
    {
        await page.Locator(".mat[aria-busy=false]").WaitForAsync();
        double grain = await page.EvaluateAsync<double>("() => grainOf(document.querySelector('.mat canvas[aria-label^=\"A smooth mid tone\"]'))");
        bool disturbs = (await page.InnerTextAsync("h1")).Contains("disturb", StringComparison.Ordinal);
        await page.Keyboard.PressAsync((disturbs ? grain > Minded : grain < Signed) ? "ArrowRight" : "ArrowLeft");
        ILocator next = page.Locator(".prog [role=status]", new PageLocatorOptions { HasTextRegex = new Regex($"^{given + 1} answered") });
        await next.Or(page.Locator("h1:not(.q)")).First.WaitForAsync();
        return new Look(disturbs, grain);
    }

    /// <summary>Holds what was kept against what the eye saw, now that the levels are told.</summary>
    private static void AreOwn(List<Look> looks, JsonElement judging, BenchWindow window)
    {
        JsonElement[] answers = [.. judging.GetProperty("answers").EnumerateArray()];
        Assert.Equal(looks.Select(l => l.Disturbs ? "disturbs" : "wouldSign"), answers.Select(a => a.GetProperty("question").GetString()));
        // Noise power without that of rounding to whole steps, in doublings, over the level in stops: a straight line.
        double[] level = [.. answers.Select(Level)], power = [.. looks.Select(Power)];
        double middle = level.Average(), mean = power.Average();
        double slope = level.Zip(power, (x, y) => (x - middle) * (y - mean)).Sum() / level.Sum(x => (x - middle) * (x - middle));
        // A doubling a stop is the noise of light; that of the electronics, the tone curve's bend and a patch of a few hundred pixels change it by less.
        Assert.InRange(slope, 0.8, 1.2);
        (double clean, double stretch) = (Own("clean", Minded), Own("stretch", Signed));
        // Each is good to a third of a stop.
        Assert.InRange(stretch - clean, 2 - 2 / 3.0, 2 + 2 / 3.0);
        window.Note($"judging by pixels: {looks.Count} answers, clean {clean:0.00} and stretch {stretch:0.00} stops above ISO 100, noise power times 2^{slope:0.00} a stop");

        double Own(string name, double grain)
        {
            JsonElement limit = judging.GetProperty(name);
            double kept = limit.GetProperty("limitStopsAboveIso100").GetDouble(), seen = middle + (Power(new(true, grain)) - mean) / slope;
            double[] interval = [.. limit.GetProperty("interval95Stops").EnumerateArray().Select(e => e.GetDouble())];
            bool isLessSure = limit.GetProperty("outcome").GetString() == "wide" && interval[0] <= seen && seen <= interval[1];
            Assert.True(isLessSure || Math.Abs(kept - seen) <= 1 / 3.0, $"{name}: kept {kept:0.00}, seen {seen:0.00}, {limit.GetRawText()}");
            return kept;
        }

        static double Power(Look look) => Math.Log2(look.Grain * look.Grain - 1 / 12.0);

        static double Level(JsonElement answer)
        {
            double w = answer.GetProperty("weight").GetDouble();
            return Math.Log2(answer.GetProperty("iso").GetDouble() / 100 * (w * w + (1 - w) * (1 - w)));
        }
    }

    /// <summary>What the eye was asked, and the grain that it saw.</summary>
    private sealed record Look(bool Disturbs, double Grain);

    /// <summary>Strength of the fine grain: what a smooth shade leaves at nothing.</summary>
    private const string Grain = """
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
        """;
}
