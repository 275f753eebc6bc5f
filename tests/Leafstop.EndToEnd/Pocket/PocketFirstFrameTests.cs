using Microsoft.Playwright;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: no white flash, from the first painted pixel on.</summary>
public sealed class PocketFirstFrameTests(Chromium chromium, PocketFiles files)
{
    /// <summary>Every frame that the browser paints while the page opens, however slow the telephone: black, with red at most.</summary>
    [Fact]
    public async Task From_the_first_frame_nothing_is_painted_but_black_and_red()
    {
        IPage page = await chromium.PageAsync(390, isPhone: true);
        await page.GotoAsync("data:text/html,<html style='background:black'>");
        ICDPSession session = await page.Context.NewCDPSessionAsync(page);
        List<string> frames = [];
        session.Event("Page.screencastFrame").OnEvent += async (_, frame) =>
        {
            lock (frames)
                frames.Add(frame!.Value.GetProperty("data").GetString()!);
            await session.SendAsync("Page.screencastFrameAck", new Dictionary<string, object> { ["sessionId"] = frame!.Value.GetProperty("sessionId").GetInt32() });
        };
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = 4 });
        await session.SendAsync("Page.startScreencast", new Dictionary<string, object> { ["format"] = "png", ["everyNthFrame"] = 1 });
        await page.GotoAsync(new Uri(files.Given).AbsoluteUri);
        await page.WaitForFunctionAsync("() => document.documentElement.dataset.ready");
        await page.EvaluateAsync("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
        await session.SendAsync("Page.stopScreencast");
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = 1 });
        string[] seen;
        lock (frames)
            seen = [.. frames];
        Assert.True(seen.Length >= 2, $"{seen.Length} frames were seen.");
        IPage reader = await chromium.PageAsync(400);
        foreach (string frame in seen)
        {
            // Brightest green or blue, and the share of light against a white page.
            double[] light = await reader.EvaluateAsync<double[]>(Brightness, frame);
            Assert.True(light[0] <= 12, $"green or blue of {light[0]}");
            Assert.True(light[1] < 0.05, $"light of {light[1]}");
        }
        await reader.Context.CloseAsync();
        await page.Context.CloseAsync();
    }

    private const string Brightness = """
        async frame => {
          const picture = await createImageBitmap(await (await fetch('data:image/png;base64,' + frame)).blob());
          const canvas = new OffscreenCanvas(picture.width, picture.height), draw = canvas.getContext('2d');
          draw.drawImage(picture, 0, 0);
          const { data } = draw.getImageData(0, 0, picture.width, picture.height);
          let most = 0, light = 0;
          for (let i = 0; i < data.length; i += 4) { most = Math.max(most, data[i + 1], data[i + 2]); light += .2126 * (data[i] / 255) ** 2.2; }
          return [most, light / (data.length / 4)];
        }
        """;
}
