using Microsoft.Playwright;

// One browser for all tests, and each page of a program made once.
[assembly: AssemblyFixture(typeof(Leafstop.EndToEnd.Chromium))]
[assembly: AssemblyFixture(typeof(Leafstop.EndToEnd.Pocket.PocketFiles))]

namespace Leafstop.EndToEnd;

/// <summary>The machine's own Chromium, driven without a network. Nothing is downloaded: a machine without it skips the tests with a reason.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser"];

    private IPlaywright? _driver;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        if (Array.Find(Places, File.Exists) is not { } program)
            return;
        _driver = await Playwright.CreateAsync();
        // A machine that builds beside it takes seconds to load a page; what is tested is what appears, not how fast.
        Assertions.SetDefaultExpectTimeout(60_000);
        _browser = await Launch(_driver, program);
    }

    /// <summary>Another browser on a screen of so many pixels to one of the page: to pretend one in a page of the first shows other pixels than a screen does.</summary>
    public async Task<IBrowser> OnScreenOf(double ratio)
    {
        Assert.SkipWhen(_driver is null, $"Chromium is not at {string.Join(" or ", Places)}.");
        return await Launch(_driver, Array.Find(Places, File.Exists)!, FormattableString.Invariant($"--force-device-scale-factor={ratio}"), "--force-color-profile=srgb");
    }

    /// <summary>A page, without network when nothing else is said; the test is skipped where there is no Chromium.</summary>
    /// <param name="width">Width of the window.</param>
    /// <param name="height">Its height.</param>
    /// <param name="isPhone">True for a telephone that is touched, false for a window with a mouse.</param>
    /// <param name="isOffline">False for a page that asks a host of this machine.</param>
    public async Task<IPage> PageAsync(int width, int height = 844, bool isPhone = false, bool isOffline = true)
    {
        Assert.SkipWhen(_browser is null, $"Chromium is not at {string.Join(" or ", Places)}.");
        IBrowserContext context = await _browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            Offline = isOffline,
            ReducedMotion = ReducedMotion.Reduce,
            HasTouch = isPhone,
            IsMobile = isPhone,
        });
        return await context.NewPageAsync();
    }

    private static Task<IBrowser> Launch(IPlaywright driver, string program, params string[] more) => driver.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
    {
        ExecutablePath = program,
        // Root, as in a build container, may not use the browser's sandbox. The pages are our own.
        Args = ["--no-sandbox", "--disable-gpu", "--hide-scrollbars", .. more],
    });

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
            await _browser.DisposeAsync();
        _driver?.Dispose();
    }
}
