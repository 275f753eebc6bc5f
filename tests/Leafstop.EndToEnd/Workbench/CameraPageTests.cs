using Leafstop.Testing;
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

        await window.Button("Forget Body A").PressAsync("Enter");
        await window.Button("Keep it").First.ClickAsync();
        await window.Button("Forget Body A").PressAsync("Enter");
        await window.Button("Yes, forget Body A").PressAsync("Enter");
        await window.Says("No camera is kept yet.");
        await window.Button("Take back").PressAsync("Enter");
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
    public async Task Places_show_what_was_metered_there_and_lead_to_a_plan()
    {
        Done(workbench.Run(["places", "add", "Dimble Spout", "--lat", "50.1", "--lon", "-3.2", "--zone", "Europe/London", "--ridge", "15"]));
        Done(workbench.Run(["places", "note", "Dimble Spout", "--at", "2026-10-17 08:40", "--ev", "6 2/3", "--okta", "8", "--filter", "polariser 1.5"]));
        BenchWindow window = await Open("places");
        await window.Says("Dimble Spout is kept.");
        await Assertions.Expect(window.Page.GetByText("17 October 2026, 08:40")).ToBeVisibleAsync();
        await window.Looks("places", "paper", "night");
        await window.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Plan the light there" }).ClickAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Combobox, new PageGetByRoleOptions { Name = "Place" })).ToHaveValueAsync("Dimble Spout");
        Assert.Empty(window.Strange);
        await window.Close();
    }

    private async Task<BenchWindow> Open(string page) =>
        await BenchWindow.Open(await chromium.PageAsync(1280, isOffline: false), workbench.Address.Replace("/?", $"/{page}?", StringComparison.Ordinal));

    private static void Done(Ended ended) => Assert.True(ended.Code == 0, ended.Error);
}
