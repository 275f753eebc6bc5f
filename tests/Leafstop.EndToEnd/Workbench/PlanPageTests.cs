using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Testing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: the Plan page in a real browser over the program as it is built answers as leafstop plan does, as one types, by keys alone, in every light.</summary>
public sealed class PlanPageTests(Chromium chromium, RunningWorkbench workbench) : IClassFixture<Chromium>, IClassFixture<RunningWorkbench>
{
    // The scenes of the job, and one for each way that the light can be told; what is written on the page is what the program is called with.
    public static TheoryData<string> Scenes =>
    [
        "aperture=11 shutter=1/4 under=2_1/3 filter=polariser_1.5 clean=800 stretch=3200 print=60cm distance=60cm foam=2.7",
        "aperture=8 shutter=1/125 ev=9 filter=polariser_1.5 clean=800 stretch=3200 print=60cm distance=60cm leaves=still leaf-distance=10m leaf-speed=25cm/s focal=50mm kept=5_of_25",
        "aperture=11 shutter=1/4 meter=f/8_1/30_ISO_400 near=1.8m far=inf focal=24mm print=120cm distance=40cm camera=Body_A",
        "aperture=f/11 shutter=1/4 ev=6_2/3 clean=800 stretch=3200 print=90cm distance=60cm water=textured water-speed=1m/s water-distance=6m focal=35mm leaves=still leaf-distance=10m wind=3m/s site=stand lift=1 crop=2/3",
        "aperture=8 shutter=1/60 light=17:40 date=2026-10-17 lat=50.1 lon=-3.2 zone=Europe/London okta=8 canopy=0.5 filter=polariser clean=800 stretch=3200 print=60cm distance=60cm",
        "water=silk water-speed=2m/s water-distance=8m near=2m far=50m focal=35mm ev=8 print=60cm distance=60cm camera=Body_A",
    ];

    [Theory]
    [MemberData(nameof(Scenes))]
    public async Task The_page_answers_as_the_program_does(string scene)
    {
        (string Name, string Text)[] values = [.. scene.Split(' ').Select(v => v.Split('=', 2)).Select(v => (v[0], v[1].Replace('_', ' ')))];
        BenchWindow window = await Open(string.Join('&', values.Select(v => $"{v.Name}={Uri.EscapeDataString(v.Text)}")));
        Ended ended = workbench.Run(["plan", .. values.SelectMany(v => new[] { "--" + v.Name, v.Text }), "--json"]);
        Assert.True(ended.Code == 0, ended.Error);
        JsonElement plan = JsonDocument.Parse(ended.Out).RootElement, words = plan.GetProperty("words");
        await Assertions.Expect(window.Page.Locator("h1")).ToHaveTextAsync(Plain(words.GetProperty("verdict").GetString()!));
        Assert.Equal(Plain(words.GetProperty("second").GetString()!), Plain(await window.Page.InnerTextAsync(".second")));
        await Settled(window);
        JsonElement[] rows = [.. plan.GetProperty("giveUp").EnumerateArray()];
        string[] tried = [.. (await window.Page.Locator(".give .try").AllTextContentsAsync()).Select(Plain)];
        Assert.Equal(rows.Select(r => Plain(r.GetProperty("words").GetString()!)), tried);
        string text = Plain(await window.Page.EvaluateAsync<string>("() => document.querySelector('main').textContent"));
        Assert.All(plan.GetProperty("cautions").EnumerateArray(), c => Assert.Contains(Plain(c.GetProperty("text").GetString()!), text, StringComparison.Ordinal));
        Assert.Empty(window.Strange);
        await window.Close();
    }

    [Fact]
    public async Task It_answers_while_one_types_and_goes_back_to_what_stood_there_while_a_value_cannot_be_read()
    {
        BenchWindow window = await Open("aperture=11&shutter=1/4&under=2 1/3&clean=800&stretch=3200&print=60cm&distance=60cm");
        await window.Says("ISO 500: inside clean");
        await window.Presses("Shutter: 1/4, change");
        await window.Page.Keyboard.TypeAsync("1/8");
        await window.Says("ISO 1000");
        await window.Page.Keyboard.TypeAsync("x");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "Shutter: '1/8x' cannot be read" })).ToBeVisibleAsync();
        // Not the answer to the letters before: nobody meant 1/8 s, nor f/1 on the way to a slip of the finger.
        await window.Says("ISO 500: inside clean");
        await Assertions.Expect(window.Page.Locator(".answer.still")).ToContainTextAsync("Still for f/11 and 1/4 s, as it was before.");
        await window.Page.Keyboard.PressAsync("Escape");
        await window.Says("ISO 500: inside clean");
        // The light stays what it was metered, so another aperture changes how far under it is.
        await window.Presses("Aperture: 11, change");
        await window.Page.Keyboard.TypeAsync("8");
        await window.Page.Keyboard.PressAsync("Enter");
        await window.Says("ISO 250");
        await window.Button("Stops under: 1 1/3, change").WaitForAsync();
        await window.Presses("Take back");
        await window.Says("ISO 500");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    [Fact]
    public async Task A_row_of_the_table_is_tried_and_taken_back_by_keys_and_the_page_survives_a_reload()
    {
        BenchWindow window = await Open("aperture=8&shutter=1/125&ev=9&filter=polariser 1.5&clean=800&stretch=3200&print=60cm&distance=60cm&leaves=still&leaf-distance=10m&leaf-speed=25cm/s&focal=50mm&near=7.5m&far=12m");
        await window.Says("ISO 1600: 1 stop over clean");
        await Settled(window);
        await window.Looks("plan-over", "paper", "night");
        foreach ((string row, string then) in new[] { ("Try: Polariser off", "ISO 640"), ("Try: f/5.6 instead of f/8", "ISO 800"), ("Try: Print 42 cm, not 60", "ISO 1600: at your clean limit") })
        {
            await window.Button(row).FocusAsync();
            await window.Page.Keyboard.PressAsync("Enter");
            await window.Says(then);
            await Assertions.Expect(window.Button("Take back")).ToBeFocusedAsync();
            await window.Page.Keyboard.PressAsync("Enter");
            await window.Says("ISO 1600: 1 stop over clean");
            await Settled(window);
        }
        await window.Button("Try: Polariser off").ClickAsync();
        await window.Says("ISO 640");
        await Settled(window);
        await window.Page.ReloadAsync();
        await window.Says("ISO 640");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    [Fact]
    public async Task The_evening_is_drawn_with_its_crossings_and_read_by_keys()
    {
        BenchWindow window = await Open("aperture=8&shutter=1/60&light=17:40&date=2026-10-17&lat=50.1&lon=-3.2&zone=Europe/London&okta=8&canopy=0.5&clean=800&stretch=3200&print=60cm&distance=60cm&near=3m&far=inf&focal=24mm&water=textured&water-speed=1m/s&water-distance=6m&leaves=still&leaf-distance=10m&wind=3m/s&site=stand");
        await Settled(window);
        ILocator caption = window.Page.Locator("figcaption .ft").First;
        await Assertions.Expect(caption).ToContainTextAsync(new Regex("you (leave clean|pass stretch) at 1[678]:"));
        ILocator slider = window.Page.GetByRole(AriaRole.Slider, new PageGetByRoleOptions { Name = "Time in the drawing" });
        string before = (await slider.GetAttributeAsync("aria-valuetext"))!;
        await slider.PressAsync("End");
        string after = (await slider.GetAttributeAsync("aria-valuetext"))!;
        Assert.Contains("17:40: EV", before, StringComparison.Ordinal);
        Assert.Contains("20:40: EV", after, StringComparison.Ordinal);
        // The moment that leafstop light finds for what clean needs: f/8 and 1/60 at ISO 800.
        Ended ended = workbench.Run(["light", "--lat", "50.1", "--lon", "-3.2", "--zone", "Europe/London", "--date", "2026-10-17", "--okta", "8", "--canopy", "0.5", "--aperture", "8", "--shutter", "1/60", "--iso", "800", "--from", "16:40", "--to", "20:40"]);
        Assert.True(ended.Code == 0, ended.Error);
        MatchCollection times = Regex.Matches(await caption.InnerTextAsync(), @"clean at (\d\d:\d\d)");
        Assert.NotEmpty(times);
        foreach (Match time in times)
            Assert.Contains(time.Groups[1].Value, ended.Out.Split('\n')[0] + ended.Out.Split('\n')[1], StringComparison.Ordinal);
        await window.Looks("plan-evening", "paper", "sun", "night");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    // Derived: at the time of the reading the chart stands at what the meter showed, whatever the model says; the limits that the answer names are passed where it says.
    [Fact]
    public async Task A_light_that_was_metered_is_carried_on_over_the_hours_by_keys_alone()
    {
        BenchWindow window = await Open("aperture=8&shutter=1/60&ev=9&filter=polariser 1.5&clean=800&stretch=3200&print=60cm&distance=60cm");
        await window.Says("ISO 800: at your clean limit");
        await Assertions.Expect(window.Page).ToHaveTitleAsync("Plan · Leafstop");
        await window.Presses("And the hours around it?");
        await window.Writes("Time of the reading", "17:40");
        await window.Writes("Date", "2026-10-17");
        await window.Writes("Clock", "Europe/London");
        await window.Writes("Cloud", "8");
        await Settled(window);
        ILocator slider = window.Page.GetByRole(AriaRole.Slider, new PageGetByRoleOptions { Name = "Time in the drawing" });
        await window.TabTo("Time in the drawing");
        // 9 through the polariser is 10.5 without it, in thirds 10 2/3: the hours are told without a filter.
        Assert.StartsWith("17:40: EV 10 2/3 ±0.3, ISO 800, at your clean limit", (await slider.GetAttributeAsync("aria-valuetext"))!.Replace('\u00A0', ' '), StringComparison.Ordinal);
        await window.Page.Keyboard.PressAsync("End");
        await Assertions.Expect(slider).ToHaveAttributeAsync("aria-valuetext", new Regex("^20:40: EV .*over stretch|no dial goes"));
        await Assertions.Expect(window.Page.Locator("figcaption .ft").First).ToContainTextAsync(new Regex("leave clean at 17:4[01]"));
        await window.Looks("plan-carried", "paper", "night");
        // At ten at night the meter saw something else than what is left of the sun.
        await window.Writes("Time of the reading", "22:00");
        await Assertions.Expect(window.Page.GetByText("that is the moon or lamps")).ToBeVisibleAsync();
        await Assertions.Expect(window.Page.Locator(".evening")).ToHaveCountAsync(0);
        await window.Looks("plan-other-light", "paper");
        await window.Writes("Time of the reading", "noon");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "Time: 'noon' is no time of day" })).ToBeVisibleAsync();
        await window.Says("ISO 800: at your clean limit");
        await window.Presses("Leave out: the hours around it");
        await Assertions.Expect(window.Page.Locator(".evening")).ToHaveCountAsync(0);
        Assert.Empty(window.Strange);
        await window.Close();
    }

    // Every part that tells numbers has its why beside it, which a key opens.
    [Fact]
    public async Task Every_part_unfolds_to_why_by_keys_alone()
    {
        BenchWindow window = await Open("aperture=8&shutter=1/60&light=17:40&date=2026-10-17&lat=50.1&lon=-3.2&zone=Europe/London&okta=8&canopy=0.5&clean=400&stretch=800&print=60cm&distance=60cm&near=3m&far=inf&focal=50mm&water=textured&water-speed=1m/s&water-distance=6m&leaves=still&leaf-distance=10m&wind=6m/s&site=stand");
        await Settled(window);
        foreach ((string why, string told) in new[]
        {
            ("why", "EXP-02"), ("why these stops", "EXP-01"), ("why these frames", "across the mask"), ("why then", "2^("), ("why it holds that", "DOF-07"), ("why these numbers", "B-01"), ("how the light was worked out", "Circular 171"),
        })
        {
            ILocator summary = window.Page.Locator("summary").GetByText(why, new LocatorGetByTextOptions { Exact = true }).First;
            await summary.FocusAsync();
            await window.Page.Keyboard.PressAsync("Enter");
            await Assertions.Expect(summary.Locator("xpath=..").Locator(".note")).ToContainTextAsync(told, new LocatorAssertionsToContainTextOptions { IgnoreCase = true });
        }
        await window.Looks("plan-why", "paper", "night");
        await window.Close();
    }

    [Fact]
    public async Task The_first_look_is_accessible_and_a_key_is_answered_quickly()
    {
        BenchWindow window = await Open("");
        await window.Says("ISO 500");
        await Settled(window);
        await window.Looks("plan", "paper", "night");
        await window.Page.SetViewportSizeAsync(360, 740);
        Assert.Equal(0, await window.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth"));
        await window.Page.SetViewportSizeAsync(1280, 844);
        await window.Button("Shutter: ").PressAsync("Enter");
        await window.Page.EvaluateAsync(Watch);
        foreach (char key in "1/81/81/151/301/601/1251/151/81/41/60".AsEnumerable())
        {
            if (key == '1' && await window.Page.EvaluateAsync<int>("() => document.activeElement.value.length") > 3)
                await window.Page.Keyboard.PressAsync("Control+A");
            await window.Page.Keyboard.PressAsync(key.ToString());
            await Task.Delay(200, TestContext.Current.CancellationToken);
        }
        double[] took = await window.Page.EvaluateAsync<double[]>("() => window.took");
        Array.Sort(took);
        Assert.NotEmpty(took);
        window.Note($"plan: {took.Length} keys that changed the answer, {took[took.Length / 2]:0.0} ms in the middle, {took[^1]:0.0} ms at most from key to answer in the page");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    private async Task<BenchWindow> Open(string query)
    {
        string address = workbench.Address.Replace("/?", "/plan?", StringComparison.Ordinal) + (query.Length > 0 ? "&" + query : "");
        return await BenchWindow.Open(await chromium.PageAsync(1280, isOffline: false), address);
    }

    /// <summary>Waits until tables and drawings belong to the answer, which is when it is spoken.</summary>
    private static Task<IJSHandle> Settled(BenchWindow window) => window.Page.WaitForFunctionAsync(
        "() => { const said = document.querySelector('p.say[role=status]'); return said && said.textContent.length > 0 && said.textContent === document.querySelector('h1').textContent; }");

    private static string Plain(string text) => Regex.Replace(text.Replace('\u00A0', ' '), @"\s+", " ").Replace("(worked out)", "worked out", StringComparison.Ordinal)
        .Replace("(rule of thumb)", "rule of thumb", StringComparison.Ordinal).Replace("(measured)", "measured", StringComparison.Ordinal).Trim();

    /// <summary>Milliseconds from a key until the answer stands in the page, for keys that change it.</summary>
    private const string Watch = """
        () => {
          window.took = [];
          let at = 0;
          addEventListener('input', () => { at = performance.now(); }, true);
          new MutationObserver(() => { if (at) { window.took.push(performance.now() - at); at = 0; } })
            .observe(document.querySelector('h1'), { childList: true, subtree: true, characterData: true });
        }
        """;
}
