using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: the bench page as a person meets it, in a real browser over the program as it is built, on a small ladder with a lamp that drifted. Pictures go into artifacts/.</summary>
public sealed class BenchPageTests(Chromium chromium, RunningBench workbench) : IClassFixture<RunningBench>
{
    [Fact]
    public async Task A_folder_is_measured_to_a_verdict_a_table_and_plots_that_are_read_by_keys_and_the_camera_is_kept_and_compared()
    {
        BenchWindow window = await Opened("bench");
        await window.Says("No bench yet.");
        await window.Looks("bench-empty", "paper", "night");
        await window.Presses("your shot list");
        await window.Says("44 raw frames at f/8");
        await window.Looks("bench-shots", "paper", "night");
        await window.Writes("ISOs: ", "moss");
        await Alerted(window, "ISOs");
        await window.Presses("Measure the frames");

        // A folder that is not there, then one that is, by keys alone.
        await window.Writes("Folder: ", "/etc");
        await Alerted(window, "is not a folder in");
        await window.Writes("Folder: ", "faulty");
        await Assertions.Expect(window.Button($"Folder: {Path.Combine(workbench.Folder, "faulty")}, change")).ToBeVisibleAsync();
        await window.Presses("Measure");
        await window.Says("Shoot ISO\u00A01600 again.");
        Assert.Matches("/bench/[0-9a-f]{32}$", window.Page.Url);
        await window.Looks("bench-result", "paper", "sun", "night");

        // Read by keys: one stop for the tab key a plot, its neighbours by arrows.
        ILocator points = window.Page.Locator("svg.plot", new PageLocatorOptions { Has = window.Page.Locator("g.read[aria-label^='ISO']") }).First.Locator("g.read");
        await points.First.FocusAsync();
        await Assertions.Expect(points.First.Locator(".value")).ToBeVisibleAsync();
        await window.Page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(points.Nth(1)).ToBeFocusedAsync();
        Assert.Matches("^ISO.200: [0-9.]+.e\u2212, [0-9.]+ to [0-9.]+$", await points.Nth(1).GetAttributeAsync("aria-label"));
        await Assertions.Expect(points.First).ToHaveAttributeAsync("tabindex", "-1");

        // Lift or dial, moved by keys.
        ILocator moved = window.Page.Locator(".lift-or-dial"), shot = window.Page.GetByRole(AriaRole.Slider, new PageGetByRoleOptions { Name = "Shot at" });
        string before = await moved.InnerTextAsync();
        await shot.PressAsync("Home");
        Assert.Equal("ISO\u00A0100", await shot.GetAttributeAsync("aria-valuetext"));
        await window.Page.GetByRole(AriaRole.Slider, new PageGetByRoleOptions { Name = "Lifted to" }).PressAsync("End");
        await Assertions.Expect(moved).ToContainTextAsync("Dial ISO\u00A06400 if");
        Assert.NotEqual(before, await moved.InnerTextAsync());

        await window.Writes("Name of the camera: ", "Body A");
        await window.Presses("Keep it");
        await Assertions.Expect(window.Page.GetByText("Kept as “Body A”")).ToBeVisibleAsync();

        // The report is the same page that the command line writes.
        IPage report = await window.Page.RunAndWaitForPopupAsync(() => window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Report, to print" }).ClickAsync());
        await report.Locator("h1").WaitForAsync();
        Assert.Equal(await window.Verdict(), await report.InnerTextAsync("h1"));
        await report.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "night", Exact = true }).ClickAsync();
        Assert.Equal("night", await report.Locator("html").GetAttributeAsync("data-theme"));
        await report.CloseAsync();

        // Measured once more without the fault: set beside the first.
        await window.Page.GotoAsync(workbench.At("bench?folder=" + Uri.EscapeDataString(Path.Combine(workbench.Folder, "sound"))));
        await window.Button("Measure").ClickAsync();
        await window.Says("A sound metered ladder.");
        await Assertions.Expect(window.Page.GetByText("no number differs by more than its interval").Or(window.Page.GetByText("there is a difference in"))).ToBeVisibleAsync();
        await window.Looks("bench-compared", "paper", "night");
        await window.Page.GotoAsync(workbench.At("bench"));
        await Assertions.Expect(window.Page.Locator(".rows li")).ToHaveCountAsync(2);
        await window.Looks("bench-list", "paper");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    [Fact]
    public async Task Two_windows_follow_one_job_it_is_stopped_and_goes_on_and_outlives_a_host_that_is_killed()
    {
        BenchWindow one = await Opened("bench?folder=" + Uri.EscapeDataString(workbench.Large));
        await one.Light("night");
        await one.Button("Measure").ClickAsync();
        await one.Page.GetByRole(AriaRole.Status).Filter(new LocatorFilterOptions { HasTextRegex = new System.Text.RegularExpressions.Regex("^Frame [1-9]") }).WaitForAsync();
        await one.Page.SetViewportSizeAsync(390, 844);
        await one.Photograph("bench-running-390-night");
        await one.Page.SetViewportSizeAsync(1280, 900);
        // Stopped before the second window is there: opening one may take longer than the job.
        await one.Button("Stop").ClickAsync();
        await one.Says("Stopped. Nothing is lost.");
        BenchWindow two = await BenchWindow.Open(await one.Page.Context.NewPageAsync(), one.Page.Url);
        await two.Says("Stopped. Nothing is lost.");
        await one.Looks("bench-stopped", "paper", "night");
        await one.Button("Go on").ClickAsync();
        await one.Page.GetByRole(AriaRole.Status).Filter(new LocatorFilterOptions { HasTextRegex = new System.Text.RegularExpressions.Regex("^Frame [1-9]") }).WaitForAsync();
        string id = one.Page.Url.Split('/')[^1];
        Assert.Empty(one.Strange);
        Assert.Empty(two.Strange);

        await workbench.Kill();
        await Assertions.Expect(one.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "does not answer at the moment" })).ToBeVisibleAsync();
        await two.Page.CloseAsync();
        BenchWindow after = await BenchWindow.Open(one.Page, workbench.At("bench/" + id));
        // A job of seconds, of minutes on a machine that is busy otherwise.
        await Assertions.Expect(after.Page.Locator("h1")).ToContainTextAsync("metered ladder", new LocatorAssertionsToContainTextOptions { Timeout = 180_000 });
        await after.Button("Remove this test from the list").ClickAsync();
        await Assertions.Expect(after.Button("Look for the folder")).ToBeVisibleAsync();
        ILocator listed = after.Page.Locator($"a[href='bench/{id}']");
        await Assertions.Expect(listed).ToHaveCountAsync(0);
        await after.Button("Take back").ClickAsync();
        await listed.ClickAsync();
        await after.Button("Remove this test from the list").ClickAsync();
        await Assertions.Expect(after.Page.GetByText("is out of the list")).ToBeVisibleAsync();
        // Who goes elsewhere has not taken it back: it is gone for good.
        await after.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Cameras" }).ClickAsync();
        await after.Page.GotoAsync(workbench.At("bench/" + id));
        await Alerted(after, "There is no such measuring");
        await after.Close();
    }

    private async Task<BenchWindow> Opened(string page)
    {
        BenchWindow window = await BenchWindow.Open(await chromium.PageAsync(1280, 900, isOffline: false), workbench.At(page));
        await window.Light("paper");
        return window;
    }

    private static Task Alerted(BenchWindow window, string text) =>
        Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = text })).ToBeVisibleAsync();
}
