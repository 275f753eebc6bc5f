using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>Derived: cameras and places in a real browser: a camera is exported, forgotten, taken back and brought along; refusals say what to do.</summary>
public sealed class CameraPageTests(Chromium chromium, RunningWorkbench workbench) : IClassFixture<Chromium>, IClassFixture<RunningWorkbench>
{
    [Fact]
    public async Task A_camera_is_exported_forgotten_taken_back_and_brought_along()
    {
        BenchWindow window = await Open("cameras");
        await window.Says("Body A is kept.");
        await window.Looks("cameras", "paper", "night");
        Task<IDownload> waiting = window.Page.WaitForDownloadAsync();
        await window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Export" }).ClickAsync();
        IDownload download = await waiting;
        Assert.Equal("body-a.json", download.SuggestedFilename);
        Assert.Equal(workbench.Run(["cameras", "export", "Body A"]).Out, await File.ReadAllTextAsync(await download.PathAsync(), TestContext.Current.CancellationToken));

        await window.Presses("Forget Body A");
        await window.Presses("Keep it");
        await window.Presses("Forget Body A");
        await window.Presses("Yes, forget Body A");
        await window.Says("No camera is kept yet.");
        await window.Looks("cameras-empty", "paper", "night");
        // A reload does not take away what can be taken back.
        await window.Page.ReloadAsync();
        await window.Says("No camera is kept yet.");
        await window.Presses("Take back");
        await window.Says("Body A is kept.");

        await window.Page.Locator("input[type=file]").SetInputFilesAsync(await download.PathAsync());
        await Assertions.Expect(window.Page.GetByText("'Body A' holds all of this already; nothing was changed.")).ToBeVisibleAsync();
        await window.Page.Locator("#pasted").FillAsync("no camera");
        await window.Button("Keep it").ClickAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = "no JSON" })).ToBeVisibleAsync();
        window.Strange.RemoveAll(s => s.Contains("400 (Bad Request)", StringComparison.Ordinal));
        Assert.Empty(window.Strange);
        await window.Close();
    }

    [Fact]
    public async Task A_place_is_kept_changed_and_its_light_noted_by_keys_alone_and_every_act_is_taken_back()
    {
        BenchWindow window = await Open("places");
        await window.Says("No place is kept yet.");
        await window.Looks("places-empty", "paper", "night");
        await window.Writes("Name of the place", "Dimble Spout");
        await window.Presses("Keep this place");
        await Alerted(window, "Say where with Latitude and Longitude in degrees");
        await window.Writes("Latitude", "50.1");
        await window.Writes("Longitude", "-3.2");
        await window.Writes("Clock", "Europe/London");
        await window.Writes("Ridge, degrees", "15");
        await window.Presses("Keep this place");
        await window.Says("Dimble Spout is kept.");
        Assert.Contains("ridge at 15°", workbench.Run("places", "show", "Dimble Spout").Out, StringComparison.Ordinal);

        // A change is kept at once; what cannot be read is refused and changes nothing.
        await window.Writes("Ridge, degrees: 15", "steep");
        await Alerted(window, "Ridge: 'steep' is no number");
        await Assertions.Expect(window.Button("Ridge, degrees: 15, change")).ToBeVisibleAsync();
        await window.Writes("Trees: all", "0.5");
        await Assertions.Expect(window.Page.GetByText("Trees of Dimble Spout: 0.5.")).ToBeVisibleAsync();
        Assert.Contains("trees: 0.5", workbench.Run("places", "show", "Dimble Spout").Out, StringComparison.Ordinal);
        await window.Presses("Take back");
        await Assertions.Expect(window.Page.GetByText("Dimble Spout is kept.").Nth(1)).ToBeVisibleAsync();
        Assert.DoesNotContain("trees", workbench.Run("places", "show", "Dimble Spout").Out, StringComparison.Ordinal);
        await window.Writes("Name of the place: Dimble Spout", "Dimble Fall");
        await window.Says("Dimble Fall is kept.");
        await TakesBack(window);
        await window.Says("Dimble Spout is kept.");

        await window.Presses("Note the light at Dimble Spout");
        await window.Writes("Day and time", "2026-10-17 08:40");
        await window.Writes("Light, EV", "6 2/3");
        await window.Writes("Cloud, eighths", "8");
        await window.Writes("Filter", "polariser 1.5");
        await window.Looks("places-noting", "paper", "night");
        await window.Presses("Keep the note");
        ILocator note = window.Page.Locator(".rows").GetByText("17 October 2026, 08:40");
        await Assertions.Expect(note).ToBeVisibleAsync();
        await Assertions.Expect(window.Button("Take back")).ToBeFocusedAsync();
        await window.Presses("Take out the note of 17 October 2026, 08:40");
        await Assertions.Expect(note).ToHaveCountAsync(0);
        await TakesBack(window);
        await Assertions.Expect(note).ToBeVisibleAsync();
        await window.Presses("Remove Dimble Spout");
        await window.Says("No place is kept yet.");
        await TakesBack(window);
        await window.Says("Dimble Spout is kept.");
        Assert.Contains("  1  2026-10-17 08:40  EV 6 2/3 measured, 8/8 cloud, through polariser 1.5", workbench.Run("places", "show", "Dimble Spout").Out, StringComparison.Ordinal);
        await window.Looks("places", "paper", "night");

        Task<IDownload> waiting = window.Page.WaitForDownloadAsync();
        await window.Presses("Export, its whereabouts left out");
        Assert.DoesNotContain("50.1", await File.ReadAllTextAsync(await (await waiting).PathAsync(), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await window.Presses("Plan the light there");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Combobox, new PageGetByRoleOptions { Name = "Place" })).ToHaveValueAsync("Dimble Spout");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    private static async Task TakesBack(BenchWindow window)
    {
        await Assertions.Expect(window.Button("Take back")).ToBeFocusedAsync();
        await window.Page.Keyboard.PressAsync("Enter");
    }

    private static Task Alerted(BenchWindow window, string text) =>
        Assertions.Expect(window.Page.GetByRole(AriaRole.Alert).Filter(new LocatorFilterOptions { HasText = text })).ToBeVisibleAsync();

    private async Task<BenchWindow> Open(string page) =>
        await BenchWindow.Open(await chromium.PageAsync(1280, isOffline: false), workbench.Address.Replace("/?", $"/{page}?", StringComparison.Ordinal));
}
