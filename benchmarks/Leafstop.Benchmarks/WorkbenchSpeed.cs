using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Testing;
using Microsoft.Playwright;

namespace Leafstop.Benchmarks;

/// <summary>The workbench as a person meets it: the program that ./leafstop built, a browser with a folder of its own that is empty at first, no other network. How long until its pages can be used, keys
/// are answered and pictures change, and what is fetched for it. Bounds are those of docs/performance.md.</summary>
internal static class WorkbenchSpeed
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser"];
    private static readonly string Built = Path.Combine(Repository.Root, "build", "leafstop", "leafstop");
    private static readonly string Folder = Path.Combine(Path.GetTempPath(), "leafstop-benchmarks", "workbench");
    private static readonly string Bench = Path.Combine(Folder, "bench"), Data = Path.Combine(Folder, "data");

    public static int Run(string[] args)
    {
        if (Array.Find(Places, File.Exists) is not { } program || !File.Exists(Built))
        {
            Console.Error.WriteLine("workbench [TIMES]: needs Chromium, and the program that ./leafstop builds.");
            return 2;
        }
        int times = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 5;
        Prepare();
        return RunAsync(program, times).GetAwaiter().GetResult() ? 0 : 1;
    }

    private static async Task<bool> RunAsync(string program, int times)
    {
        string page = Path.Combine(Repository.Root, "build", "page");
        double packed = Directory.EnumerateFiles(page, "*", SearchOption.AllDirectories).Where(IsFetched).Sum(f => (double)new FileInfo(f).Length) / 1e6;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"all files of the page, packed with brotli where that helps, type included: {packed:F2} MB (bound 2.5 MB)"));
        bool holds = packed <= 2.5;

        using IPlaywright driver = await Playwright.CreateAsync();
        List<Opening> cold = [], warm = [];
        List<double> printed = [], answered = [], planCold = [], planWarm = [], keys = [], frames = [], pictures = [];
        for (int i = 0; i < times; i++)
        {
            long begun = Stopwatch.GetTimestamp();
            using Serving host = Serving.Start();
            printed.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
            answered.Add(await host.FirstAnswer());
            DirectoryInfo own = Directory.CreateTempSubdirectory("leafstop-browser-");
            try
            {
                await using IBrowserContext browser = await driver.Chromium.LaunchPersistentContextAsync(own.FullName, new BrowserTypeLaunchPersistentContextOptions
                {
                    ExecutablePath = program,
                    Args = ["--no-sandbox", "--disable-gpu"],
                    ViewportSize = new ViewportSize { Width = 1280, Height = 844 },
                });
                await browser.AddInitScriptAsync(Watch);
                cold.Add(await Open(browser, host.Address));
                warm.Add(await Open(browser, host.At("/")));
                planWarm.Add(await Plan(browser, host.At("/plan"), keys, frames));
                if (i == 0)
                    pictures.AddRange(await Pictures(browser, host));
            }
            finally
            {
                own.Delete(recursive: true);
            }
        }

        // The plan as the page that is opened first, in a browser that never saw any.
        for (int i = 0; i < times; i++)
        {
            using Serving host = Serving.Start();
            await using IBrowser browser = await driver.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = program, Args = ["--no-sandbox", "--disable-gpu"] });
            IBrowserContext context = await browser.NewContextAsync();
            await context.AddInitScriptAsync(Watch);
            planCold.Add(await Plan(context, host.Address.Replace("/?", "/plan?", StringComparison.Ordinal), [], []));
        }

        Say("host: from leafstop serve to the printed address", printed);
        Say("host: the first page asked for after that", answered);
        Say("first page, cold: first paint", cold.Select(o => o.Painted));
        holds &= Say("first page, cold: usable", cold.Select(o => o.Usable), 1500);
        Say("first page, cold: its program has taken over", cold.Select(o => o.Running));
        Say("first page, warm: first paint", warm.Select(o => o.Painted));
        holds &= Say("first page, warm: usable", warm.Select(o => o.Usable), 700);
        Say("first page, warm: its program has taken over", warm.Select(o => o.Running));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"fetched for the first page: cold {cold[0].Fetched / 1e6:F2} MB in {cold[0].Files} files, warm {warm[0].Fetched / 1e6:F2} MB"));
        Say("plan opened first, cold: its answer", planCold);
        Say("plan opened, warm: its answer", planWarm);
        holds &= Say("plan: from a key to the answer in the page", keys, 16);
        Say("plan: from a key to the frame that shows it", frames);
        holds &= Say("judging: from a key to the next pictures", pictures, 100);
        return holds;
    }

    /// <summary>What a browser fetches of a file of the page: packed where there is a packed one, and no licence text.</summary>
    private static bool IsFetched(string file) => Path.GetExtension(file) switch
    {
        ".gz" or ".txt" => false,
        ".br" => !file.EndsWith(".txt.br", StringComparison.Ordinal),
        _ => !File.Exists(file + ".br"),
    };

    private sealed record Opening(double Painted, double Usable, double Running, double Fetched, int Files);

    private static async Task<Opening> Open(IBrowserContext browser, string address)
    {
        IPage page = await browser.NewPageAsync();
        await page.GotoAsync(address);
        await page.WaitForFunctionAsync("() => window.found && window.found.running", null, new PageWaitForFunctionOptions { PollingInterval = 200 });
        // A person reads now; the browser keeps what it compiled.
        await Task.Delay(2000);
        double[] found = await page.EvaluateAsync<double[]>(
            """
            () => {
              const files = [...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')];
              return [performance.getEntriesByName('first-contentful-paint')[0].startTime, window.found.usable ?? NaN, window.found.running, files.reduce((sum, e) => sum + e.transferSize, 0), files.length];
            }
            """);
        await page.CloseAsync();
        return new(found[0], found[1], found[2], found[3], (int)found[4]);
    }

    /// <summary>Milliseconds until the plan's first answer; then keys, whose answers are timed too.</summary>
    private static async Task<double> Plan(IBrowserContext browser, string address, List<double> keys, List<double> frames)
    {
        IPage page = await browser.NewPageAsync();
        await page.GotoAsync(address);
        await page.WaitForFunctionAsync("() => window.found.plan", null, new PageWaitForFunctionOptions { PollingInterval = 200 });
        double opened = await page.EvaluateAsync<double>("() => window.found.plan");
        await page.Locator("p.say[role=status]:not(:empty)").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Attached });
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Shutter: " }).PressAsync("Enter");
        await page.EvaluateAsync(WatchKeys);
        foreach (string shutter in new[] { "1/8", "1/15", "1/30", "1/60", "1/125", "1/15", "1/8", "1/4", "1/60", "1/2", "1/30" })
        {
            await page.Keyboard.PressAsync("Control+A");
            foreach (char key in shutter)
            {
                await page.Keyboard.PressAsync(key.ToString());
                await Task.Delay(150);
            }
        }
        keys.AddRange(await page.EvaluateAsync<double[]>("() => window.took"));
        frames.AddRange(await page.EvaluateAsync<double[]>("() => window.shown"));
        await page.CloseAsync();
        return opened;
    }

    /// <summary>A judging by keys, at the pace of somebody who looks: milliseconds from each key until the next pictures stand and take the next key.</summary>
    private static async Task<double[]> Pictures(IBrowserContext browser, Serving host)
    {
        string id = await host.Judging();
        IPage page = await browser.NewPageAsync();
        await page.GotoAsync(host.At($"/judging/{id}"));
        // Noise is not judged by red light.
        await page.Locator(".themes button", new PageLocatorOptions { HasText = "paper" }).ClickAsync();
        await page.Locator(".mat[aria-busy=false]").WaitForAsync(new LocatorWaitForOptions { Timeout = 120_000 });
        await page.EvaluateAsync(WatchPictures);
        for (int i = 0; i < 16; i++)
        {
            await Task.Delay(1500);
            await page.Keyboard.PressAsync(i % 3 == 0 ? "ArrowRight" : "ArrowLeft");
            await page.WaitForFunctionAsync("n => window.changed.length === n", i + 1);
        }
        return await page.EvaluateAsync<double[]>("() => window.changed");
    }

    private static void Prepare()
    {
        if (Directory.Exists(Data))
            return;
        Console.Error.WriteLine($"writing and measuring 8 frames of 24 MP in {Folder}");
        Do("sample", Bench, "--size", "6000x4000", "--isos", "100 400 1600 6400", "--caps", "0", "--quiet");
        Do("measure", Bench, "--save", "Body A", "--quiet");
    }

    private static void Do(params string[] words)
    {
        using Process process = Process.Start(Asked(words))!;
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"leafstop {words[0]} ended with {process.ExitCode}.");
    }

    private static ProcessStartInfo Asked(string[] words)
    {
        ProcessStartInfo start = new(Built, words);
        start.Environment["LEAFSTOP_DATA"] = Data;
        return start;
    }

    private static bool Say(string what, IEnumerable<double> milliseconds, double bound = double.PositiveInfinity)
    {
        double[] sorted = [.. milliseconds.Order()];
        double median = sorted[sorted.Length / 2];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what,-52} best {sorted[0],6:0.0} ms, median {median,6:0.0} ms, worst {sorted[^1],6:0.0} ms, of {sorted.Length}{(double.IsFinite(bound) ? $" (bound {bound} ms: {(median <= bound ? "met" : "not met")})" : "")}"));
        return median <= bound;
    }

    private sealed class Serving : IDisposable
    {
        private readonly Process _process;
        private readonly Uri _printed;

        private Serving(Process process, string printed)
        {
            (_process, Address) = (process, printed);
            _printed = new Uri(printed);
        }

        /// <summary>As it was printed, with its key.</summary>
        public string Address { get; }

        public static Serving Start()
        {
            ProcessStartInfo start = Asked(["serve", Bench, "--no-open"]);
            start.RedirectStandardOutput = true;
            Process process = Process.Start(start)!;
            // "The workbench is at http://127.0.0.1:40123/?key=…"
            return new(process, process.StandardOutput.ReadLine()!.Split(' ')[^1]);
        }

        public string At(string path) => _printed.GetLeftPart(UriPartial.Authority) + path;

        /// <summary>Milliseconds until the host, just started, has answered the first page.</summary>
        public async Task<double> FirstAnswer()
        {
            using HttpClient client = Program();
            long begun = Stopwatch.GetTimestamp();
            await client.GetStringAsync("/");
            return Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
        }

        /// <summary>Begins a judging and waits until its pictures can be shown.</summary>
        public async Task<string> Judging()
        {
            using HttpClient client = Program();
            // A screen of 100 pixels an inch, a print of 60 cm at arm's length.
            using HttpResponseMessage begun = await client.PostAsJsonAsync(
                "/api/judgings", new { folder = Bench, camera = "Body A", printWidthMm = 600, viewingDistanceMm = 600, screenPixelsPerCentimetre = 100 / 2.54, seed = 7 });
            string at = begun.EnsureSuccessStatusCode().Headers.Location!.OriginalString;
            while ((await client.GetFromJsonAsync<JsonElement>(at)).GetProperty("state").GetString() is "waiting" or "measuring" or "cutting")
                await Task.Delay(200);
            return at.Split('/')[^1];
        }

        public void Dispose()
        {
            _process.Kill(entireProcessTree: true);
            _process.WaitForExit();
            _process.Dispose();
        }

        private HttpClient Program()
        {
            HttpClient client = new() { BaseAddress = new Uri(At("/")) };
            client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", _printed.Query["?key=".Length..]);
            return client;
        }
    }

    /// <summary>Looks at every frame: usable is when the headline says what the host knows and a click on the light has changed the page; running, when its program has drawn the page and takes such a click.</summary>
    private const string Watch =
        """
        (() => {
          const found = window.found = {};
          const button = light => [...document.querySelectorAll('.themes button')].find(b => b.textContent === light);
          // Presses another light; true in the frame in which the page has changed to it.
          const answers = probe => {
            const light = document.documentElement.dataset.theme;
            if (!probe.to && button('paper')) [probe.from, probe.to] = [light, light === 'paper' ? 'sun' : 'paper'];
            // Pressed again in each frame until it answers: the first may come before anything listens.
            if (probe.to && light !== probe.to) button(probe.to)?.click();
            if (!probe.to || document.documentElement.dataset.theme !== probe.to || button(probe.to)?.getAttribute('aria-pressed') !== 'true') return false;
            button(probe.from).click();
            return true;
          };
          const sent = {}, own = {};
          const drawn = name => requestAnimationFrame(() => setTimeout(() => { found[name] = performance.now(); }));
          const look = () => {
            const says = document.querySelector('h1')?.textContent ?? '';
            if (!sent.isFound && says.includes('Body A') && answers(sent)) { sent.isFound = true; drawn('usable'); }
            if (!own.isFound && says && document.querySelector('header.head') && !document.querySelector('.sent') && answers(own)) { own.isFound = true; drawn('running'); }
            if (!own.hasPlan && says.includes('ISO')) { own.hasPlan = true; drawn('plan'); }
            if (!own.isFound || location.pathname === '/plan' && !own.hasPlan) requestAnimationFrame(look);
          };
          requestAnimationFrame(look);
        })();
        """;

    /// <summary>From the browser's own time of a key until the answer stands in the page, and until the frame with it was drawn.</summary>
    private const string WatchKeys =
        """
        () => {
          window.took = [];
          window.shown = [];
          let at = 0;
          addEventListener('input', event => { at = event.timeStamp; }, true);
          new MutationObserver(() => {
            if (!at) return;
            const begun = at;
            at = 0;
            window.took.push(performance.now() - begun);
            requestAnimationFrame(() => setTimeout(() => window.shown.push(performance.now() - begun)));
          }).observe(document.querySelector('h1'), { childList: true, subtree: true, characterData: true });
        }
        """;

    private const string WatchPictures =
        """
        () => {
          window.changed = [];
          let at = 0;
          addEventListener('keydown', event => { at = event.timeStamp; }, true);
          new MutationObserver(() => {
            if (at && document.querySelector('.mat').getAttribute('aria-busy') === 'false') { window.changed.push(performance.now() - at); at = 0; }
          }).observe(document.querySelector('.mat'), { attributes: true, attributeFilter: ['aria-busy'] });
        }
        """;
}
