using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Leafstop.Core.Card;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: the page as a person in the field uses it, with a finger, from a file, without a network. Pictures of every screen go into artifacts/.</summary>
public sealed class PocketPageTests(Chromium chromium, PocketFiles files) : IClassFixture<Chromium>, IClassFixture<PocketFiles>
{
    /// <summary>15 mm where 390 px are 70 mm.</summary>
    private const double Touch = 84;

    private static readonly string[] Screens =
    [
        "gap", "pick:under:0:gap", "pick:shutter:0:gap", "pick:aperture:0:gap", "pick:focal:0:water", "water", "leaves", "wind", "light", "more", "depth", "keep", "pair", "leaving", "zoom", "print", "place", "camera", "look", "own", "card",
    ];

    private async Task<PocketScreen> Open(string file, int width = 390, int height = 844) => await PocketScreen.Open(await chromium.PageAsync(width, height, isPhone: true), file);

    /// <summary>E2 of the job, from the page as it is new and from what the other wood left.</summary>
    [Theory]
    [InlineData(null)]
    [InlineData("""{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""")]
    public async Task Dimble_Spout_takes_six_taps(string? left)
    {
        PocketScreen page = await Open(files.Given);
        if (left is not null)
        {
            await page.Page.EvaluateAsync("left => localStorage.setItem('leafstop-pocket', left)", left.Replace("}", ",\"leaves\":\"\"}", StringComparison.Ordinal));
            await page.Page.ReloadAsync();
            await page.Ready();
            await page.Pick("aperture", "f/11");
            await page.Pick("shutter", "1/4");
            await page.Pick("under", "2 1/3");
        }
        else
        {
            await page.Page.Locator("button.val[data-act^='go:pick:under:']").TapAsync();
            await page.Page.Locator("[data-act=polariser]").TapAsync();
            await page.Page.Locator(".cell", new PageLocatorOptions { HasText = "2 1/3" }).First.TapAsync();
        }
        Assert.InRange(page.Taps, 0, 6);
        Assert.Equal("500", await page.Iso);
        Assert.Equal("Inside clean, 2/3 to spare.", await page.Verdict);
        string all = await page.Main();
        Assert.Contains("Polariser counted.", all, StringComparison.Ordinal);
        Assert.Matches("Without it ISO\\s180, dial 200", all);
        Assert.Contains("foam has about 1/4 stop left. Check the highlights.", all, StringComparison.Ordinal);
        Assert.Equal("f/11", await page.Text("button.val[data-act^='go:pick:aperture:'] .out"));
        Assert.Empty(page.Asked);
        await page.Close();
    }

    [Fact]
    public async Task Camera_and_limits_are_taken_over_from_the_text_of_a_card()
    {
        PrintCondition print = new(600, 600);
        CardText card = new()
        {
            Name = "Second body",
            Camera = new CameraIdentity { Make = "", Model = "Invented Body B", Width = 6000, Height = 4000, Mosaic = "2x2", Bits = 14 },
            BaseIso = Iso.FromMarking(200),
            Limits = NoiseLimits.Of(Iso.FromMarking(1000), Iso.FromMarking(4000), new LimitTags("Invented Body B, 14-bit raw, 6000 pixels across", print, ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Judged),
            JudgedOn = new DateOnly(2026, 11, 2),
            Print = print,
            MadeOn = new DateOnly(2026, 11, 3),
        };
        PocketScreen page = await Open(files.Given);
        await page.Page.EvaluateAsync("leafstop.press('go:card')");
        ILocator field = page.Page.Locator("#card"), take = page.Page.Locator("[data-act=card]");

        // Damaged on the way: said, and what was there stays.
        await field.FillAsync(card.ToString().Replace("1000", "1250", StringComparison.Ordinal));
        await take.TapAsync();
        Assert.DoesNotContain("from its card", await page.Verdict, StringComparison.Ordinal);

        await field.FillAsync(card.ToString());
        await take.TapAsync();
        Assert.Equal("Second body, from its card.", await page.Verdict);
        await page.Page.ReloadAsync();
        await page.Ready();
        await page.Page.EvaluateAsync("leafstop.press('go:camera')");
        Assert.Equal("Second body, from its card, base 200.", await page.Verdict);
        string all = await page.Main();
        Assert.Contains("Clean 1000, stretch 4000", all, StringComparison.Ordinal);
        Assert.Contains("your own, judged 2 November 2026", all, StringComparison.Ordinal);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>E3 of the job.</summary>
    [Fact]
    public async Task Brackenhush_Wood_takes_ten_taps()
    {
        PocketScreen page = await Open(files.Given);
        await page.Page.EvaluateAsync("() => { leafstop.open(document.getElementById('leafstop-data').textContent, JSON.stringify({ aperture: 2 ** 3.5, shutter: .25, light: 9 - 7 / 3, polariser: true, depthOn: true, near: 1800, far: 'inf' })); }");
        await page.Pick("aperture", "f/8");
        await page.Pick("shutter", "1/60");
        await page.Pick("under", "3");
        Assert.Equal("800", await page.Iso);
        Assert.Equal("On your clean limit, 0 to spare.", await page.Verdict);
        await page.Tap("Leaves");
        await page.Tap("0.33");
        Assert.Contains("Still at 1/125", await page.Main(), StringComparison.Ordinal);
        await page.Tap("Use 1/125 s");
        Assert.InRange(page.Taps, 0, 10);
        Assert.Equal("1600", await page.Iso);
        Assert.Equal("Past clean by 1. Still 1 short of stretch.", await page.Verdict);
        Assert.Equal(["Lull, 1/60 s", "Polariser off", "f/5.6"], await page.Page.Locator("button.g .w").AllTextContentsAsync());
        Assert.Equal(["800", "640", "800"], await page.Page.Locator("button.g .i data").AllTextContentsAsync());
        await page.Tap("3 more ways");
        Assert.Contains("Print 42 cm", await page.Main(), StringComparison.Ordinal);
        Assert.Contains("clean: 1600", await page.Main(), StringComparison.Ordinal);
        await page.Page.Locator("button.more").TapAsync();
        await page.Page.Locator("button.g", new PageLocatorOptions { HasText = "f/5.6" }).TapAsync();
        Assert.Equal("On your clean limit, 0 to spare.", await page.Verdict);
        Assert.Matches("Costs: Depth: near .1.8 m. and far .infinity. go from 0.34 to 0.47 mm", await page.Main());
        await page.Tap("Take back");
        Assert.Equal("1600", await page.Iso);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    [Fact]
    public async Task Water_depth_leaves_light_and_zoom_say_what_the_job_says()
    {
        PocketScreen page = await Open(files.Given);
        Task At(string screen, string state) => page.Page.EvaluateAsync(
            "([screen, state]) => { leafstop.open(document.getElementById('leafstop-data').textContent, state); leafstop.press('go:' + screen); }", new[] { screen, state });
        // E7: 35 mm, 6 m, 1/4 s; 70 mm from the same spot wants 1/8 and a stop more.
        await At("water", """{"shutter":0.25,"focal":35,"waterDistance":6000,"waterSpeed":1}""");
        Assert.Equal("A streak of 4.1 % of the width at 1/4 s.", await page.Verdict);
        Assert.Contains("70 mm 1/8 s, gap 1 more", (await page.Main()).Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("Local rules come first", await page.Main(), StringComparison.Ordinal);
        // 5 of 25: 14 more (6 to 43); 0 of 10: cannot say, anything up to 26 %.
        await At("keep", $$"""{"trial":"{{new string('k', 5)}}{{new string('n', 19)}}"}""");
        await page.Tap("No");
        Assert.Equal("5 of 25 kept.", await page.Verdict);
        Assert.Contains("About 14 more for a 95 % chance of one (could be 6 to 43).", await page.Main(), StringComparison.Ordinal);
        await page.Tap("New trial");
        for (int i = 0; i < 10; i++)
            await page.Tap("No");
        Assert.Contains("anything up to 26 %", await page.Main(), StringComparison.Ordinal);
        await page.Tap("Take back");
        Assert.Equal("0 of 9 kept.", await page.Verdict);
        // The fern at 1.8 m: 0.34 mm at f/8, 0.24 at f/11 when the focus serves near and far alike.
        await At("depth", """{"aperture":11.313708498984761,"focal":24,"near":1800,"far":"inf","light":6.666666666666667}""");
        Assert.Equal("f/11 holds 1.8\u00A0m to infinity.", await page.Verdict);
        Assert.Contains("0.34", await page.Main(), StringComparison.Ordinal);
        await At("zoom", "{}");
        Assert.Equal("4.7 times is your print.", await page.Verdict);
        // 1/4 against 1/125 at f/11 is five stops: the leaves' frame is far past stretch, and the shortest that stays within stretch is 1/25.
        await At("pair", """{"aperture":11.313708498984761,"shutter":0.25,"secondShutter":0.0078125,"light":6.666666666666667}""");
        string pair = (await page.Main()).Replace('\u2009', ' ');
        Assert.Contains("5 apart, and one is past stretch.", pair, StringComparison.Ordinal);
        Assert.Contains("16 000", pair, StringComparison.Ordinal);
        Assert.Matches("Leaves in a lull\\s+1/25.s", pair);
        await At("leaving", "{}");
        foreach (ILocator tick in await page.Page.Locator(".tickrow").AllAsync())
            await tick.TapAsync();
        Assert.Equal("All five. You may go.", await page.Verdict);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>A stop lost in ten minutes: two thirds to spare are gone in less than seven.</summary>
    [Fact]
    public async Task Two_readings_tell_how_long_until_the_limit()
    {
        PocketScreen page = await Open(files.Given);
        DateTime start = new(2026, 10, 17, 17, 0, 0, DateTimeKind.Utc);
        await page.Page.Clock.SetFixedTimeAsync(start);
        await page.Page.EvaluateAsync("() => leafstop.open(document.getElementById('leafstop-data').textContent, JSON.stringify({ screen: 'light', aperture: 2 ** 3.5, shutter: .25, light: 9 - 4 / 3 }))");
        await page.Page.Locator("[data-act=note]").TapAsync();
        await page.Page.Clock.SetFixedTimeAsync(start.AddMinutes(10));
        for (int i = 0; i < 3; i++)
            await page.Page.Locator("[data-act='step:under:+1']").TapAsync();
        await page.Page.Locator("[data-act=note]").TapAsync();
        Assert.Equal("Loses a stop in 10 min.", await page.Verdict);
        Assert.Contains("Past clean in about 7 min (5 to 10).", await page.Main(), StringComparison.Ordinal);
        Assert.Contains("Two frames to be blended: within 2 min.", await page.Main(), StringComparison.Ordinal);
        // The screen was locked for four minutes.
        await page.Page.Clock.SetFixedTimeAsync(start.AddMinutes(14));
        await Frozen(page.Page);
        await page.Page.WaitForFunctionAsync("() => document.getElementById('page').innerText.includes('Past clean in about 3 min')");
        await page.Close();
    }

    [Fact]
    public async Task What_was_set_outlives_a_reload_a_screen_lock_and_a_closed_tab()
    {
        PocketScreen page = await Open(files.Given);
        await page.Pick("aperture", "f/13");
        await page.Pick("under", "2 2/3");
        await page.Page.ReloadAsync();
        await page.Ready();
        Assert.Equal("2 2/3", await page.Text("button.val[data-act^='go:pick:under:'] .out"));
        await Frozen(page.Page);
        await page.Page.Locator("[data-act='step:under:+1']").TapAsync();
        Assert.Equal("800", await page.Iso);
        IPage second = await page.Page.Context.NewPageAsync();
        await page.Page.CloseAsync();
        PocketScreen again = await PocketScreen.Open(second, files.Given);
        Assert.Equal("800", await again.Iso);
        Assert.Equal("f/13", await again.Text("button.val[data-act^='go:pick:aperture:'] .out"));
        Assert.Empty(page.Asked.Concat(again.Asked));
        await again.Close();
    }

    [Fact]
    public async Task Where_the_browser_keeps_nothing_the_tab_does_and_the_page_says_so()
    {
        IPage bare = await chromium.PageAsync(390, isPhone: true);
        await bare.AddInitScriptAsync("Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('not for files', 'SecurityError'); } })");
        PocketScreen page = await PocketScreen.Open(bare, files.Given);
        await page.Pick("under", "2");
        await page.Page.ReloadAsync();
        await page.Ready();
        Assert.Equal("400", await page.Iso);
        await page.Page.EvaluateAsync("() => leafstop.press('go:look')");
        Assert.Contains("a closed tab loses it", await page.Main(), StringComparison.Ordinal);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    [Fact]
    public async Task Own_judged_limits_come_first_with_their_five_tags_and_places_without_their_whereabouts()
    {
        string data = PocketFiles.DataOf(files.Kept);
        Assert.DoesNotContain("50.1", data, StringComparison.Ordinal);
        Assert.DoesNotContain("<", data, StringComparison.Ordinal);
        PocketScreen page = await Open(files.Kept);
        Assert.Matches("Clean (640|800|1000), for 60.cm at 60.cm, smooth tones. measured", await page.Main());
        await page.Page.EvaluateAsync("() => leafstop.press('go:camera')");
        string camera = (await page.Main()).Replace('\u00A0', ' ');
        Assert.Contains("Invented Body A, 14-bit raw, 8256 pixels across, print 60 cm seen from 60 cm, smooth tones, no noise reduction; your own, judged 2 March 2026. measured", camera, StringComparison.Ordinal);
        await page.Tap("Other limits");
        Assert.Contains("textured tones", await page.Main(), StringComparison.Ordinal);
        await page.Tap("Other limits");
        Assert.Contains("not judged by you. worked out", await page.Main(), StringComparison.Ordinal);
        await page.Page.EvaluateAsync("() => leafstop.press('go:place')");
        Assert.Contains(PocketFiles.BadName, await page.Main(), StringComparison.Ordinal);
        await page.Page.Locator("button.row", new PageLocatorOptions { HasText = "Dimble Spout" }).TapAsync();
        await page.Page.Locator("button.row", new PageLocatorOptions { HasText = "Start from EV 6 2/3" }).TapAsync();
        // f/11 and 1/4 s want EV 9.
        Assert.Equal("2 1/3", await page.Text("button.val[data-act^='go:pick:under:'] .out"));
        Assert.Contains("Polariser counted.", await page.Main(), StringComparison.Ordinal);
        Assert.Contains("Dimble Spout", await page.Main(), StringComparison.Ordinal);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>Every frame that the browser paints while the page opens, however slow the telephone: black, with red at most.</summary>
    [Fact]
    public async Task From_the_first_frame_nothing_is_painted_but_black_and_red()
    {
        IPage page = await chromium.PageAsync(390, isPhone: true);
        await page.GotoAsync("data:text/html,<html style='background:black'>");
        ICDPSession session = await page.Context.NewCDPSessionAsync(page);
        List<string> frames = [];
        session.Event("Page.screencastFrame").OnEvent += async (_, frame) =>
        {
            lock (frames)
                frames.Add(frame!.Value.GetProperty("data").GetString()!);
            await session.SendAsync("Page.screencastFrameAck", new Dictionary<string, object> { ["sessionId"] = frame!.Value.GetProperty("sessionId").GetInt32() });
        };
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = 4 });
        await session.SendAsync("Page.startScreencast", new Dictionary<string, object> { ["format"] = "png", ["everyNthFrame"] = 1 });
        await page.GotoAsync(new Uri(files.Given).AbsoluteUri);
        await page.WaitForFunctionAsync("() => document.documentElement.dataset.ready");
        await page.WaitForTimeoutAsync(300);
        await session.SendAsync("Page.stopScreencast");
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = 1 });
        string[] seen;
        lock (frames)
            seen = [.. frames];
        Assert.True(seen.Length >= 2, $"{seen.Length} frames were seen.");
        IPage reader = await chromium.PageAsync(400);
        foreach (string frame in seen)
        {
            // Brightest green or blue, and the share of light against a white page.
            double[] light = await reader.EvaluateAsync<double[]>(Brightness, frame);
            Assert.True(light[0] <= 12, $"green or blue of {light[0]}");
            Assert.True(light[1] < 0.05, $"light of {light[1]}");
        }
        await reader.Context.CloseAsync();
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData("night", "right")]
    [InlineData("sun", "left")]
    public async Task Every_screen_fits_reaches_the_thumb_and_is_accessible(string theme, string hand)
    {
        PocketScreen page = await Open(files.Kept);
        List<string> faults = [];
        foreach (string screen in Screens)
            await Look(page, screen, """{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"polariser":true,"place":"Dimble Spout","focal":35,"trial":"knnkn"}""", screen);
        await Look(page, "gap", """{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""", "over");
        await Look(page, "leaves", """{"aperture":8,"shutter":0.015625,"light":9,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""", "leaves-told");
        await Look(page, "gap", """{"aperture":8,"shutter":0.001,"light":9}""", "beyond");
        await Look(page, "gap", """{"aperture":5.656854249492381,"shutter":0.0078125,"light":9,"before":{"aperture":8,"shutter":0.0078125,"light":9},"tried":"f/5.6","triedCost":"Depth: near (1.8 m) and far (infinity) go from 0.34 to 0.48 mm on the print; you start to see 0.25."}""", "tried");
        await Look(page, "light", """{"readings":[1790000000000,8,1790000600000,7],"light":7}""", "light-told");
        Assert.True(faults.Count == 0, string.Join("\n", faults));
        Assert.Empty(page.Asked);
        await page.Close();

        async Task Look(PocketScreen on, string screen, string state, string name)
        {
            string left = state[..^1] + $",\"theme\":\"{theme}\",\"hand\":\"{hand}\",\"screen\":\"{screen}\"}}";
            await on.Page.EvaluateAsync("left => { leafstop.open(document.getElementById('leafstop-data').textContent, left); }", left);
            await on.Photograph($"pocket-{name.Split(':')[0]}{(name.Contains(':', StringComparison.Ordinal) ? "-" + name.Split(':')[1] : "")}-{theme}");
            faults.AddRange((await on.Page.EvaluateAsync<string[]>(Faults, Touch)).Select(f => $"{name}: {f}"));
            AxeResult found = await on.Page.RunAxe();
            faults.AddRange(found.Violations.SelectMany(v => v.Nodes.Select(n => $"{name}: {v.Id}: {n.Html}")));
        }
    }

    /// <summary>Browser bars take 180 px: the answer stays whole, nothing shrinks under 15 mm.</summary>
    [Theory]
    [InlineData(390, 664)]
    [InlineData(360, 640)]
    public async Task A_shorter_window_folds_and_keeps_the_answer(int width, int height)
    {
        PocketScreen page = await Open(files.Given, width, height);
        List<string> faults = [];
        foreach ((string name, string state) in new[]
        {
            ("inside", """{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"polariser":true}"""),
            ("over", """{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625}"""),
        })
        {
            await page.Page.EvaluateAsync("left => { leafstop.open(document.getElementById('leafstop-data').textContent, left); }", state);
            await page.Photograph($"pocket-{name}-{width}x{height}");
            faults.AddRange((await page.Page.EvaluateAsync<string[]>(Faults, Touch)).Select(f => $"{name}: {f}"));
            Assert.NotEmpty(await page.Page.Locator("button.val[data-act^='go:pick:shutter:']:visible").AllAsync());
            Assert.NotEmpty(await page.Page.Locator("button.val[data-act^='go:pick:aperture:']:visible").AllAsync());
        }
        Assert.True(faults.Count == 0, string.Join("\n", faults));
        await page.Close();
    }

    [Fact]
    public async Task Dimmest_leaves_the_answer_and_the_steps()
    {
        PocketScreen page = await Open(files.Given);
        await page.Page.EvaluateAsync("() => { leafstop.press('dim'); leafstop.press('go:gap'); }");
        await page.Photograph("pocket-gap-dimmest");
        Assert.True(await page.Page.Locator(".iso data").IsVisibleAsync());
        Assert.False(await page.Page.Locator(".sure").First.IsVisibleAsync());
        Assert.Equal(6, await page.Page.Locator(".pm:visible").CountAsync());
        await page.Close();
    }

    [Theory]
    [InlineData("--out writes a web page", "--out", "page.pdf")]
    [InlineData("there is no folder", "--out", "nowhere/page.html")]
    [InlineData("no camera 'Body Z' is kept", "--camera", "Body Z")]
    [InlineData("needs --clean", "--stretch", "3200")]
    [InlineData("A limit holds for one print", "--clean", "800")]
    [InlineData("stretch is the higher of the two", "--clean", "800", "--stretch", "400", "--print", "60cm", "--distance", "60cm")]
    [InlineData("--lenses:", "--lenses", "24,wide")]
    [InlineData("--taste:", "--taste", "4")]
    [InlineData("--print needs --distance", "--print", "60cm")]
    public void What_cannot_be_written_is_refused_in_one_sentence(string sentence, params string[] args)
    {
        _ = files.Kept;
        Testing.Ended ended = files.Program.Run(["pocket", .. args]);
        Assert.NotEqual(0, ended.Code);
        Assert.Contains(sentence, ended.Error, StringComparison.Ordinal);
        Assert.Equal(1, ended.Error.TrimEnd().Count(c => c == '\n') + 1);
    }

    /// <summary>As a locked screen or a swept-away browser does.</summary>
    private static async Task Frozen(IPage page)
    {
        ICDPSession session = await page.Context.NewCDPSessionAsync(page);
        await session.SendAsync("Page.setWebLifecycleState", new Dictionary<string, object> { ["state"] = "frozen" });
        await Task.Delay(200);
        await session.SendAsync("Page.setWebLifecycleState", new Dictionary<string, object> { ["state"] = "active" });
    }

    private const string Brightness = """
        async frame => {
          const picture = await createImageBitmap(await (await fetch('data:image/png;base64,' + frame)).blob());
          const canvas = new OffscreenCanvas(picture.width, picture.height), draw = canvas.getContext('2d');
          draw.drawImage(picture, 0, 0);
          const { data } = draw.getImageData(0, 0, picture.width, picture.height);
          let most = 0, light = 0;
          for (let i = 0; i < data.length; i += 4) { most = Math.max(most, data[i + 1], data[i + 2]); light += .2126 * (data[i] / 255) ** 2.2; }
          return [most, light / (data.length / 4)];
        }
        """;

    /// <summary>Targets smaller than 15 mm, out of the window, text cut or lying on other text.</summary>
    private const string Faults = """
        touch => {
          const found = [], main = document.getElementById('page'), wide = innerWidth, high = innerHeight;
          if (document.documentElement.scrollWidth > wide) found.push('scrolls sideways to ' + document.documentElement.scrollWidth);
          if (main.scrollHeight > main.clientHeight + 1) found.push('the page scrolls by ' + (main.scrollHeight - main.clientHeight));
          for (const box of main.querySelectorAll('.told, .pick, .ans, .say-it, .give'))
            if (box.scrollHeight > box.clientHeight + 6 && getComputedStyle(box).display !== 'contents') found.push(box.className + ' is cut by ' + (box.scrollHeight - box.clientHeight));
          for (const b of main.querySelectorAll('button')) {
            const r = b.getBoundingClientRect();
            if (r.width === 0) continue;
            if (r.width < touch - .6 || r.height < touch - 1.6) found.push(`"${b.textContent.slice(0, 20)}" is ${r.width.toFixed(1)} x ${r.height.toFixed(1)}`);
            const scrolls = b.closest('.rows.long');
            if (!scrolls && (r.left < -.5 || r.right > wide + .5 || r.bottom > high + .5)) found.push(`"${b.textContent.slice(0, 20)}" lies outside`);
            if (b.scrollWidth > b.clientWidth + 1) found.push(`"${b.textContent.slice(0, 30)}" is wider than its button`);
          }
          const words = [...main.querySelectorAll('.where, .iso, .pv, .sure, .care, .line, .lb, .out, .w, .s, .i, .res, .picked, table, textarea')].map(e => ({ e, r: e.getBoundingClientRect() })).filter(w => w.r.width > 0 && w.r.height > 0);
          words.forEach((a, i) => words.slice(i + 1).forEach(b => {
            if (a.e.contains(b.e) || b.e.contains(a.e)) return;
            const across = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left), down = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
            if (across > 1 && down > 7) found.push(`"${a.e.textContent.slice(0, 20)}" on "${b.e.textContent.slice(0, 20)}"`);
          }));
          for (const t of main.querySelectorAll('.st text')) if (t.getBoundingClientRect().left < -.5) found.push('the staff label ' + t.textContent + ' is cut');
          return found;
        }
        """;
}
