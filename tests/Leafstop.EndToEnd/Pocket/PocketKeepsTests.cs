using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: what was set is there again after a reload, a locked screen and a closed tab, where the browser keeps anything, and where it does not.</summary>
public sealed class PocketKeepsTests(Chromium chromium, PocketFiles files)
{
    private async Task<PocketScreen> Open(string file) => await PocketScreen.Open(await chromium.PageAsync(390, isPhone: true), file);

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

    /// <summary>A telephone needs seconds to start the runtime: meanwhile the last answer stands, and taps wait.</summary>
    [Fact]
    public async Task The_last_answer_stands_before_core_is_up_and_a_tap_on_it_is_not_lost()
    {
        PocketScreen page = await Open(files.Given);
        await page.Pick("under", "2");
        Assert.Equal("400", await page.Iso);
        await page.Page.AddInitScriptAsync(
            """
            new MutationObserver((_, watch) => {
              const button = document.querySelector('#page [data-act="step:under:+1"]');
              if (!button) return;
              watch.disconnect();
              globalThis.early = { iso: document.querySelector('#page .iso data').textContent, ready: document.documentElement.dataset.ready ?? 'not yet' };
              setTimeout(() => { button.click(); button.click(); globalThis.early.busy = document.getElementById('page').getAttribute('aria-busy'); });
            }).observe(document, { childList: true, subtree: true });
            """);
        await page.Page.ReloadAsync();
        await page.Ready();
        Assert.Equal("400", await page.Page.EvaluateAsync<string>("() => early.iso"));
        Assert.Equal("not yet", await page.Page.EvaluateAsync<string>("() => early.ready"));
        Assert.Equal("true", await page.Page.EvaluateAsync<string>("() => early.busy"));
        Assert.Equal("2 2/3", await page.Text("button.val[data-act^='go:pick:under:'] .out"));
        Assert.Null(await page.Page.Locator("#page").GetAttributeAsync("aria-busy"));
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>A page that was never used opens with what the program worked out when it wrote the page: letter for letter what Core shows when it is up, in every height of window, and a tap on it is not lost either.</summary>
    [Theory]
    [InlineData(360)]
    [InlineData(667)]
    [InlineData(740)]
    [InlineData(844)]
    [InlineData(932)]
    public async Task A_new_page_opens_with_the_answer_that_core_then_gives_and_answers_early_taps(int height)
    {
        foreach (string file in (string[])[files.Given, files.Kept])
        {
            IPage bare = await chromium.PageAsync(390, height, isPhone: true);
            await bare.AddInitScriptAsync(
                """
                new MutationObserver((_, watch) => {
                  if (!document.documentElement.dataset.last) return;
                  watch.disconnect();
                  globalThis.early = { html: document.getElementById('page').innerHTML, iso: document.querySelector('#page .iso data').textContent, ready: document.documentElement.dataset.ready ?? 'not yet' };
                  if (sessionStorage.getItem('tap')) for (let i = 0; i < 4; i++) document.querySelector('#page [data-act="step:under:+1"]').click();
                  sessionStorage.setItem('tap', 'next time');
                }).observe(document, { attributes: true, childList: true, subtree: true });
                """);
            PocketScreen page = await PocketScreen.Open(bare, file);
            Assert.Equal("not yet", await bare.EvaluateAsync<string>("() => early.ready"));
            Assert.Equal("100", await bare.EvaluateAsync<string>("() => early.iso"));
            Assert.Equal(await bare.EvaluateAsync<string>("() => document.getElementById('page').innerHTML"), await bare.EvaluateAsync<string>("() => early.html"));
            // New once more, and tapped four times before Core is there.
            await bare.EvaluateAsync("() => localStorage.clear()");
            await bare.ReloadAsync();
            await page.Ready();
            Assert.Equal("100", await bare.EvaluateAsync<string>("() => early.iso"));
            Assert.Equal("1 1/3", await page.Text("button.val[data-act^='go:pick:under:'] .out"));
            Assert.Empty(page.Asked);
            await page.Close();
        }
    }

    /// <summary>What stands in the store may be anything, and of another file.</summary>
    [Theory]
    [InlineData("nothing that can be read")]
    [InlineData("{\"mark\":\"1 390 844\",\"state\":\"\",\"answer\":\"{}\\n<p>another file</p>\"}")]
    [InlineData("{\"mark\":7}")]
    public async Task A_last_answer_that_is_not_of_this_page_is_not_shown(string left)
    {
        IPage bare = await chromium.PageAsync(390, isPhone: true);
        await bare.AddInitScriptAsync($"localStorage.setItem('{PocketFiles.KeyOf(files.Given)}-last', {System.Text.Json.JsonSerializer.Serialize(left)}); new MutationObserver(() => {{ if (document.body?.innerText.includes('another file')) globalThis.fooled = true; }}).observe(document, {{ childList: true, subtree: true }});");
        PocketScreen page = await PocketScreen.Open(bare, files.Given);
        Assert.False(await page.Page.EvaluateAsync<bool>("() => globalThis.fooled === true"));
        Assert.NotEmpty(await page.Iso);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>All pages from files are one origin to a browser: two of them on one telephone keep to themselves, their look too.</summary>
    [Fact]
    public async Task Two_pages_of_one_browser_do_not_read_what_the_other_keeps()
    {
        Assert.NotEqual(PocketFiles.KeyOf(files.Given), PocketFiles.KeyOf(files.Kept));
        PocketScreen page = await Open(files.Given);
        await page.Pick("under", "2");
        await page.Page.EvaluateAsync("() => { leafstop.press('theme'); leafstop.press('hand'); leafstop.press('go:gap'); }");
        IPage second = await page.Page.Context.NewPageAsync();
        PocketScreen other = await PocketScreen.Open(second, files.Kept);
        Assert.Equal("100", await other.Iso);
        Assert.Equal("night", await second.EvaluateAsync<string>("() => document.documentElement.dataset.theme"));
        Assert.Equal("right", await second.EvaluateAsync<string>("() => document.documentElement.dataset.hand"));
        await other.Pick("under", "3");
        await page.Page.ReloadAsync();
        await page.Ready();
        Assert.Equal("400", await page.Iso);
        Assert.Equal("sun", await page.Page.EvaluateAsync<string>("() => document.documentElement.dataset.theme"));
        Assert.Equal("left", await page.Page.EvaluateAsync<string>("() => document.documentElement.dataset.hand"));
        Assert.Empty(page.Asked.Concat(other.Asked));
        await page.Close();
    }

    /// <summary>A mark in the address, or a link of somebody else's with a state in it, changes nothing where the browser keeps what was set.</summary>
    [Theory]
    [InlineData("#top")]
    [InlineData("#%7B%22light%22%3A9%7D")]
    public async Task What_stands_in_the_address_does_not_replace_what_was_set(string mark)
    {
        PocketScreen page = await Open(files.Given);
        await page.Pick("under", "2");
        await page.Page.GotoAsync("about:blank");
        await page.Page.GotoAsync(new Uri(files.Given).AbsoluteUri + mark);
        await page.Ready();
        Assert.Equal("400", await page.Iso);
        await page.Close();
    }

    /// <summary>The store takes nothing more after it once did: what it holds is older than the address.</summary>
    [Fact]
    public async Task A_store_that_is_full_does_not_bring_back_what_was_set_before()
    {
        IPage bare = await chromium.PageAsync(390, isPhone: true);
        string key = PocketFiles.KeyOf(files.Given);
        await bare.AddInitScriptAsync($"if (!localStorage.getItem('{key}')) localStorage.setItem('{key}', '{{\"light\":9}}');" + " Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };");
        PocketScreen page = await PocketScreen.Open(bare, files.Given);
        await page.Pick("under", "2");
        await page.Page.ReloadAsync();
        await page.Ready();
        Assert.Equal("400", await page.Iso);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>A locked screen holds no clock up: what is told counts from now.</summary>
    [Fact]
    public async Task After_a_screen_lock_the_times_have_moved_on()
    {
        PocketScreen page = await Open(files.Given);
        DateTime start = new(2026, 10, 17, 17, 0, 0, DateTimeKind.Utc);
        await page.Page.Clock.SetFixedTimeAsync(start);
        double at = new DateTimeOffset(start).ToUnixTimeMilliseconds();
        string left = FormattableString.Invariant($"{{\"screen\":\"light\",\"aperture\":11.313708498984761,\"shutter\":0.25,\"light\":6.666666666666667,\"readings\":[{at - 600_000},7.666666666666667,{at},6.666666666666667],\"leaveAt\":{at + 3_600_000}}}");
        await page.Page.EvaluateAsync("left => { leafstop.open(document.getElementById('leafstop-data').textContent, left); }", left);
        Assert.Equal("Loses a stop in 10 min.", await page.Verdict);
        Assert.Contains("Past clean in about 7 min (5 to 10).", await page.Main(), StringComparison.Ordinal);
        await page.Page.Clock.SetFixedTimeAsync(start.AddMinutes(4));
        await Frozen(page.Page);
        await page.Page.WaitForFunctionAsync("() => document.getElementById('page').innerText.includes('Past clean in about 3 min')");
        await page.Tap("Back");
        Assert.Contains("Leave by", await page.Text(".exit"), StringComparison.Ordinal);
        Assert.EndsWith("56\u00A0min", await page.Text(".exit"), StringComparison.Ordinal);
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>As a locked screen or a swept-away browser does.</summary>
    private static async Task Frozen(IPage page)
    {
        ICDPSession session = await page.Context.NewCDPSessionAsync(page);
        await session.SendAsync("Page.setWebLifecycleState", new Dictionary<string, object> { ["state"] = "frozen" });
        await session.SendAsync("Page.setWebLifecycleState", new Dictionary<string, object> { ["state"] = "active" });
    }
}
