using System.Globalization;
using Microsoft.Playwright;

namespace Leafstop.Benchmarks;

/// <summary>How long a pocket page takes from its opening until its answer is shown, and until taps are answered: a browser that was just started, the page from its file, no network.</summary>
internal static class PocketStart
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser"];

    // A telephone of the middle class is four times as slow as the machines that pages are made on.
    private static readonly int[] Slowness = [1, 4];

    public static int Run(string[] args)
    {
        if (args.Length == 0 || !File.Exists(args[0]) || Array.Find(Places, File.Exists) is not { } program)
        {
            Console.Error.WriteLine("pocket FILE.html [TIMES]: a page that leafstop pocket wrote; needs Chromium.");
            return 2;
        }
        int times = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 5;
        string address = new Uri(Path.GetFullPath(args[0])).AbsoluteUri;
        foreach (int slowness in Slowness)
        {
            double[][] found = [.. Enumerable.Range(0, times).Select(_ => Once(program, address, slowness, isTapped: false).GetAwaiter().GetResult())];
            double[][] tapped = [.. Enumerable.Range(0, times).Select(_ => Once(program, address, slowness, isTapped: true).GetAwaiter().GetResult())];
            Say($"answer shown, processor {slowness} times slower", found.Select(f => f[0]));
            Say("taps are answered", found.Select(f => f[1]));
            Say("a tap made on that answer is answered", tapped.Select(f => f[1]));
            Say("later: first tap answered", found.Select(f => f[2]));
            Say("later: next tap answered", found.Select(f => f[3]));
            Say("opened again: last answer shown", found.Select(f => f[4]));
            Say("opened again: taps are answered", found.Select(f => f[5]));
        }
        return 0;
    }

    /// <summary>Milliseconds until an answer stands and until Core answers taps, and of two taps; then, opened again, until the last answer stands and until Core is there.</summary>
    /// <param name="program">The browser.</param>
    /// <param name="address">The page.</param>
    /// <param name="slowness">How many times slower the processor is made.</param>
    /// <param name="isTapped">True to tap once as soon as the first answer stands: Core is there when that tap is answered.</param>
    private static async Task<double[]> Once(string program, string address, int slowness, bool isTapped)
    {
        using IPlaywright driver = await Playwright.CreateAsync();
        await using IBrowser browser = await driver.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = program, Args = ["--no-sandbox", "--disable-gpu"] });
        IBrowserContext context = await browser.NewContextAsync(new BrowserNewContextOptions { ViewportSize = new ViewportSize { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true, Offline = true });
        IPage page = await context.NewPageAsync();
        ICDPSession session = await context.NewCDPSessionAsync(page);
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = slowness });
        if (isTapped)
        {
            await page.AddInitScriptAsync(
                """
                new MutationObserver((_, watch) => {
                  if (!document.documentElement.dataset.last) return;
                  watch.disconnect();
                  document.querySelector('[data-act="step:under:+1"]').click();
                }).observe(document, { attributes: true, childList: true, subtree: true });
                """);
        }
        await page.GotoAsync(address);
        await Ready(session);
        double[] first = await page.EvaluateAsync<double[]>(
            """
            () => {
              const tap = () => { const begun = performance.now(); document.querySelector('[data-act="step:under:+1"]').click(); document.body.getBoundingClientRect(); return performance.now() - begun; };
              return [Number(document.documentElement.dataset.last), Number(document.documentElement.dataset.ready), tap(), tap()];
            }
            """);
        await page.ReloadAsync();
        await Ready(session);
        return [.. first, .. await page.EvaluateAsync<double[]>("() => [Number(document.documentElement.dataset.last), Number(document.documentElement.dataset.ready)]")];
    }

    /// <summary>Waits with a question of a few letters. What the driver brings into a page for its own waiting is compiled there in the middle of the start, 60 ms.</summary>
    private static async Task Ready(ICDPSession session)
    {
        while ((await session.SendAsync("Runtime.evaluate", new Dictionary<string, object> { ["expression"] = "document.documentElement.dataset.ready ?? ''" }))!.Value
            .GetProperty("result").GetProperty("value").GetString()!.Length == 0)
        {
            await Task.Delay(50);
        }
    }

    private static void Say(string what, IEnumerable<double> milliseconds)
    {
        double[] sorted = [.. milliseconds.Order()];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-40} best {sorted[0],6:0} ms, median {sorted[sorted.Length / 2],6:0} ms, of {sorted.Length}"));
    }
}
