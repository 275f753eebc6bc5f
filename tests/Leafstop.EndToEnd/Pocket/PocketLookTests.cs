using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: every screen fits, lies under the thumb, is accessible and never shines. Pictures of all go into artifacts/.</summary>
public sealed class PocketLookTests(Chromium chromium, PocketFiles files)
{
    /// <summary>15 mm where 390 px are 70 mm.</summary>
    private const double Touch = 84;

    private static readonly string[] Screens =
    [
        "gap", "pick:under:0:gap", "pick:shutter:0:gap", "pick:aperture:0:gap", "pick:focal:0:water", "water", "leaves", "wind", "light", "leave", "pick:leave:0:leave", "more", "depth", "keep", "pair", "leaving", "zoom", "print", "place", "camera", "look", "own", "card",
    ];

    private async Task<PocketScreen> Open(string file) => await PocketScreen.Open(await chromium.PageAsync(390, isPhone: true), file);

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
        await Look(page, "gap", """{"aperture":11.313708498984761,"shutter":0.25,"light":10,"polariser":true}""", "below-base");
        await Look(page, "depth", """{"aperture":11.313708498984761,"shutter":0.25,"light":9}""", "depth-below-base");
        await Look(page, "depth", """{"aperture":22.627416997969522,"shutter":0.001,"light":5,"near":500}""", "depth-high");
        await Look(page, "leaves", """{"aperture":8,"shutter":0.015625,"light":9,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""", "leaves-told");
        await Look(page, "gap", """{"aperture":8,"shutter":0.001,"light":9}""", "beyond");
        await Look(page, "gap", """{"aperture":5.656854249492381,"shutter":0.0078125,"light":9,"before":{"aperture":8,"shutter":0.0078125,"light":9},"tried":"f/5.6","triedCost":"Depth: near (1.8 m) and far (infinity) go from 0.34 to 0.48 mm on the print; you start to see 0.25."}""", "tried");
        await Look(page, "gap", $$"""{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"polariser":true,"leaveAt":{{DateTimeOffset.UtcNow.AddMinutes(45).ToUnixTimeMilliseconds()}}}""", "exit");
        await Look(page, "gap", """{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.7,"smearShutter":0.015625,"depthOn":true,"near":500,"far":"inf"}""", "over-cares");
        await Look(page, "gap", """{"aperture":8,"shutter":0.0078125,"light":7,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625,"before":{"aperture":8,"shutter":0.0078125,"light":9},"tried":"Lull, 1/60 s","triedCost":"Time."}""", "over-tried");
        await Look(page, "gap", """{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"polariser":true,"waterOn":true,"focal":35,"leaves":"trial","smear":0.33,"smearShutter":0.015625,"depthOn":true,"near":500,"far":"inf"}""", "inside-cares");
        // ISO of five and of six figures, past stretch and inside a clean limit that lies as high.
        await Look(page, "gap", """{"aperture":16,"shutter":0.001,"light":8,"polariser":true}""", "high");
        await Look(page, "gap", """{"aperture":16,"shutter":0.001,"light":6,"polariser":true,"leaveAt":LEAVE}""".Replace("LEAVE", DateTimeOffset.UtcNow.AddMinutes(45).ToUnixTimeMilliseconds().ToString(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal), "highest");
        await Look(page, "gap", """{"aperture":11.313708498984761,"shutter":0.0078125,"light":7,"camera":"your own numbers","ownClean":25600,"ownStretch":102400}""", "high-clean");
        await Look(page, "gap", """{"aperture":11.313708498984761,"shutter":0.001,"light":7,"camera":"your own numbers","ownClean":12800,"ownStretch":102400}""", "high-stretch");
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
            // The other theme and hand have the same page, in other colours.
            if (theme == "sun" && name is not ("gap" or "over" or "more" or "light-told"))
                return;
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
        PocketScreen page = await PocketScreen.Open(await chromium.PageAsync(width, height, isPhone: true), files.Given);
        List<string> faults = [];
        foreach ((string name, string state) in new[]
        {
            ("exit", $$"""{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"polariser":true,"leaveAt":{{DateTimeOffset.UtcNow.AddMinutes(45).ToUnixTimeMilliseconds()}}}"""),
            ("below-base", """{"aperture":11.313708498984761,"shutter":0.25,"light":10,"polariser":true}"""),
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
        // The inner screens too: nothing that is told or picked has to be dragged into sight.
        if (height >= 664)
        {
            foreach (string screen in (string[])["water", "depth", "light", "pick:shutter:0:gap", "pick:under:0:gap", "pick:aperture:0:gap", "zoom", "own", "wind", "place", "leaves", "pair"])
            {
                await page.Page.EvaluateAsync("left => { leafstop.open(document.getElementById('leafstop-data').textContent, left); }", $$"""{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"screen":"{{screen}}"}""");
                await page.Photograph($"pocket-{screen.Split(':')[0]}{(screen.Contains(':', StringComparison.Ordinal) ? "-" + screen.Split(':')[1] : "")}-{width}x{height}");
                faults.AddRange((await page.Page.EvaluateAsync<string[]>(Faults, Touch)).Select(f => $"{screen}: {f}"));
            }
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

    /// <summary>Targets smaller than 15 mm, out of the window, text cut or lying on other text.</summary>
    private const string Faults = """
        touch => {
          const found = [], main = document.getElementById('page'), wide = innerWidth, high = innerHeight;
          if (document.documentElement.scrollWidth > wide) found.push('scrolls sideways to ' + document.documentElement.scrollWidth);
          if (main.scrollHeight > main.clientHeight + 1) found.push('the page scrolls by ' + (main.scrollHeight - main.clientHeight));
          for (const box of main.querySelectorAll('.told, .pick, .ans, .say-it, .give, .rows, .beside, .row.cut'))
            if (box.scrollHeight > box.clientHeight + 6 && getComputedStyle(box).display !== 'contents') found.push(box.className + ' is cut by ' + (box.scrollHeight - box.clientHeight));
          for (const t of main.querySelectorAll('table')) if (t.getBoundingClientRect().right > wide + .5) found.push('a table reaches ' + t.getBoundingClientRect().right + ' px of ' + wide);
          for (const b of main.querySelectorAll('button')) {
            const r = b.getBoundingClientRect();
            if (r.width === 0) continue;
            if (r.width < touch - .6 || r.height < touch - 1.6) found.push(`"${b.textContent.slice(0, 20)}" is ${r.width.toFixed(1)} x ${r.height.toFixed(1)}`);
            if ((r.left < -.5 || r.right > wide + .5 || r.bottom > high + .5)) found.push(`"${b.textContent.slice(0, 20)}" lies outside`);
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
