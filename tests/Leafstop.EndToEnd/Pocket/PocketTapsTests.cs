using Leafstop.Core.Card;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: the page as a person in the field uses it, with a finger, from a file, without a network; taps are counted.</summary>
public sealed class PocketTapsTests(Chromium chromium, PocketFiles files)
{
    private async Task<PocketScreen> Open(string file) => await PocketScreen.Open(await chromium.PageAsync(390, isPhone: true), file);

    /// <summary>E2 of the job, from the page as it is new and from what the other wood left.</summary>
    [Theory]
    [InlineData(null)]
    [InlineData("""{"aperture":8,"shutter":0.0078125,"light":9,"polariser":false,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""")]
    public async Task Dimble_Spout_takes_six_taps(string? left)
    {
        PocketScreen page = await Open(files.Given);
        if (left is not null)
        {
            await page.Page.EvaluateAsync($"left => localStorage.setItem('{PocketFiles.KeyOf(files.Given)}', left)", left.Replace("}", ",\"leaves\":\"\"}", StringComparison.Ordinal));
            await page.Page.ReloadAsync();
            await page.Ready();
            // All four differ: the sheets lead on to one another.
            await page.Opens("aperture");
            await page.Tap("then shutter");
            await page.Tap("f/11");
            await page.Tap("1/4");
            await page.Tap("polariser off");
            await page.Tap("2 1/3");
        }
        else
        {
            await page.Opens("under");
            await page.Tap("polariser off");
            await page.Tap("2 1/3");
        }
        Assert.InRange(page.Taps, 3, 6);
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

    /// <summary>Past clean the table lies where the steps of aperture and shutter lay. A finger that goes on tapping must not change the light or try a row.</summary>
    [Fact]
    public async Task A_finger_that_goes_on_tapping_past_clean_does_nothing_that_it_did_not_mean()
    {
        PocketScreen page = await Open(files.Given);
        await page.Pick("aperture", "f/8");
        await page.Pick("shutter", "1/60");
        await page.Pick("under", "3");
        Assert.Equal("800", await page.Iso);
        await TapAt("step:shutter:-1", 4);
        Assert.Equal("1000", await page.Iso);
        Assert.Equal("3 1/3", await page.Text("button.val[data-act^='go:pick:under:'] .out"));
        Assert.Equal("1/80\u00a0s", await page.Text("button.val[data-act^='go:pick:shutter:'] .out"));
        // The meter's steps lie at the same place on either side of the limit.
        await TapAt("step:under:-1", 3);
        Assert.Equal("500", await page.Iso);
        await TapAt("step:under:+1", 8);
        Assert.Equal("3200", await page.Iso);
        await page.Close();

        async Task TapAt(string act, int times)
        {
            LocatorBoundingBoxResult box = (await page.Page.Locator($"[data-act='{act}']:visible").BoundingBoxAsync())!;
            for (int i = 0; i < times; i++)
                await page.Page.Touchscreen.TapAsync(box.X + box.Width / 2, box.Y + box.Height / 2);
        }
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
        Assert.Equal(["Lull, 1/60 s", "Polariser off", "f/5.6", "Print 42 cm"], await page.Page.Locator("button.g .w").AllTextContentsAsync());
        Assert.Equal(["800", "640", "800", "1600"], await page.Page.Locator("button.g .i data").AllTextContentsAsync());
        Assert.Contains("clean: 1600", await page.Main(), StringComparison.Ordinal);
        await page.Tap("2 more ways");
        await page.Tap("The cheaper ways");
        await page.Page.Locator("button.g", new PageLocatorOptions { HasText = "f/5.6" }).TapAsync();
        Assert.Equal("On your clean limit, 0 to spare.", await page.Verdict);
        Assert.Matches("Costs: Depth: near .1.8 m. and far .infinity. go from 0.34 to 0.47 mm", await page.Main());
        await page.Tap("Take back");
        Assert.Equal("1600", await page.Iso);
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
}
