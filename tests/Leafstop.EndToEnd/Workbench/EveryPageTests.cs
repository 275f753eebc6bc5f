using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: every page holds in the narrowest and the widest window, and zoomed to 200 %: nothing sideways, nothing cut, no line too long. Pictures go into artifacts/.</summary>
public sealed class EveryPageTests(Chromium chromium, RunningWorkbench workbench) : IClassFixture<RunningWorkbench>
{
    private const string Plan = "plan?aperture=8&shutter=1/60&light=17:40&date=2026-10-17&lat=50.1&lon=-3.2&zone=Europe/London&okta=8&canopy=0.5&clean=800&stretch=3200&print=60cm&distance=60cm&near=3m&far=inf&focal=24mm"
        + "&water=textured&water-speed=1m/s&water-distance=6m&leaves=still&leaf-distance=10m&wind=3m/s&site=stand";

    [Fact]
    public async Task Every_page_fits_from_360_pixels_to_4K_and_zoomed()
    {
        workbench.Run("places", "add", "Dimble Spout", "--lat", "50.1", "--lon", "-3.2", "--zone", "Europe/London", "--ridge", "15");
        workbench.Run("places", "note", "Dimble Spout", "--at", "2026-10-17 08:40", "--ev", "6 2/3", "--okta", "8", "--filter", "polariser 1.5");
        BenchWindow first = await Opened(1280, 900, 1);
        string bench = await Measured(first), judging = await Judging(first);
        (string Name, string Address)[] pages =
        [
            ("start", ""), ("bench-list", "bench"), ("bench-shots", "bench/shots"), ("bench-result", bench), ("judging-set-up", "judging"), ("judging", judging),
            ("plan", Plan), ("cameras", "cameras"), ("places", "places"), ("nothing", "nowhere"),
        ];
        foreach ((string window, int width, int height, int zoom) in new[] { ("360", 360, 740, 1), ("4K", 3840, 2160, 1), ("zoomed", 1280, 800, 2) })
        {
            BenchWindow at = await Opened(width, height, zoom);
            foreach ((string name, string address) in pages)
            {
                await at.Page.GotoAsync(At(address));
                await Shown(at, name);
                await at.Fits($"{name}-{window}");
                if (window == "360")
                {
                    await at.Light("night");
                    await at.Fits($"{name}-{window}-night");
                    await at.Light("paper");
                }
            }
            await at.Close();
        }
        await first.Close();
    }

    /// <summary>Waits until what makes a page large is there.</summary>
    private static Task Shown(BenchWindow window, string name) => window.Page.Locator(name switch
    {
        "bench-list" => ".rows li",
        "bench-result" => ".lift-or-dial",
        "judging-set-up" => ".ask",
        "judging" => ".mat canvas[style]",
        "plan" => ".evening svg",
        "cameras" or "places" => "section .rows li",
        _ => "h1",
    }).First.WaitForAsync(new LocatorWaitForOptions { Timeout = 60_000 });

    private async Task<string> Measured(BenchWindow window)
    {
        await window.Page.GotoAsync(At("bench"));
        await window.Button("Measure").ClickAsync();
        await window.Page.Locator(".lift-or-dial").WaitForAsync(new LocatorWaitForOptions { Timeout = 300_000 });
        return new Uri(window.Page.Url).AbsolutePath.TrimStart('/');
    }

    private async Task<string> Judging(BenchWindow window)
    {
        await window.Page.GotoAsync(At("judging?print=12cm"));
        await window.Button("It is as large as the card").ClickAsync();
        await window.Button("Begin").ClickAsync();
        await window.Page.Locator(".mat canvas[style]").First.WaitForAsync(new LocatorWaitForOptions { Timeout = 120_000 });
        return new Uri(window.Page.Url).AbsolutePath.TrimStart('/');
    }

    private async Task<BenchWindow> Opened(int width, int height, int zoom)
    {
        BenchWindow window = await BenchWindow.Open(await chromium.PageAsync(width, height, isOffline: false, zoom: zoom), workbench.Address);
        await window.Light("paper");
        return window;
    }

    private string At(string page) => new Uri(workbench.Address).GetLeftPart(UriPartial.Authority) + "/" + page;
}
