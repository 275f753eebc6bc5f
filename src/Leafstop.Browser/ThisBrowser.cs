using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Leafstop.Browser;

/// <summary>What a browser tells and does through script only (wwwroot/page.js).</summary>
/// <param name="script">Its script.</param>
/// <param name="light">The light that was chosen before this page ran: paper, sun or night.</param>
public sealed class ThisBrowser(IJSRuntime script, string light)
{
    /// <summary>The light changed.</summary>
    public event Action? LightChanged;

    /// <summary>paper, sun or night.</summary>
    public string Light { get; private set; } = light;

    /// <summary>Changes the light and keeps it.</summary>
    public async Task ChangeLight(string light)
    {
        await script.InvokeVoidAsync("leafstop.setLight", Light = light);
        LightChanged?.Invoke();
    }

    /// <summary>How many pixels of the screen lie on one of the page.</summary>
    public ValueTask<double> Ratio() => script.InvokeAsync<double>("leafstop.ratio");

    /// <summary>Width of the window in pixels of the page.</summary>
    public ValueTask<double> Width() => script.InvokeAsync<double>("leafstop.width");

    /// <summary>Pixels of this screen on a centimetre, as it was matched to a card; null when it was not.</summary>
    public async Task<double?> ScreenPixelsPerCentimetre() =>
        await script.InvokeAsync<string?>("leafstop.kept", "screen." + await Screen()) is { } kept
            && double.TryParse(kept, NumberStyles.Float, CultureInfo.InvariantCulture, out double pixels) && pixels is >= 5 and <= 1000 ? pixels : null;

    /// <summary>Keeps what was found for this screen.</summary>
    public async Task KeepScreen(double pixelsPerCentimetre) =>
        await script.InvokeVoidAsync("leafstop.keep", "screen." + await Screen(), pixelsPerCentimetre.ToString("R", CultureInfo.InvariantCulture));

    /// <summary>Tells keys to this object's method Pressed until it is told to nobody.</summary>
    public ValueTask Listen<T>(DotNetObjectReference<T>? to) where T : class => script.InvokeVoidAsync("leafstop.listen", to);

    /// <summary>Tells every event of an address to this object's methods Told and Lost, until it is told to follow nothing.</summary>
    public ValueTask Follow<T>(string? address, DotNetObjectReference<T>? to) where T : class => script.InvokeVoidAsync("leafstop.follow", address, to);

    /// <summary>Tells what is dropped on the page to this object's method Dropped until it is told to nobody.</summary>
    public ValueTask DropTo<T>(DotNetObjectReference<T>? to) where T : class => script.InvokeVoidAsync("leafstop.dropTo", to);

    /// <summary>Gives an element the focus without moving the page.</summary>
    public ValueTask Focus(ElementReference element) => script.InvokeVoidAsync("leafstop.focus", element);

    /// <summary>Gives the headline the focus where nothing else has it, as after a part of the page was exchanged.</summary>
    public ValueTask FocusHeadline() => script.InvokeVoidAsync("leafstop.headline");

    /// <summary>Draws pictures pixel for pixel, all at once.</summary>
    public ValueTask Show(ElementReference[] canvases, string[] addresses, bool isMirrored) => script.InvokeVoidAsync("leafstop.show", canvases, addresses, isMirrored);

    /// <summary>Name of this machine's time zone, such as Europe/London.</summary>
    public ValueTask<string> Zone() => script.InvokeAsync<string>("leafstop.zone");

    /// <summary>The local time, which a page without time zones asks its browser for.</summary>
    public async Task<DateTime> Now() => DateTime.ParseExact(await script.InvokeAsync<string>("leafstop.now"), "yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>What stands in the file that was chosen in a field, at most 4 MB of it; empty when none was.</summary>
    public ValueTask<string> TextOf(ElementReference field) => script.InvokeAsync<string>("leafstop.textOf", field);

    /// <summary>What this window holds under a name, across reloads and until it is shut; null when it holds nothing.</summary>
    public ValueTask<string?> Held(string name) => script.InvokeAsync<string?>("leafstop.held", name);

    /// <summary>Has this window hold a text, or nothing any more.</summary>
    public ValueTask Hold(string name, string? text) => script.InvokeVoidAsync("leafstop.hold", name, text);

    /// <summary>Changes the address without going anywhere, so that a reload finds what was written.</summary>
    public ValueTask Address(string address) => script.InvokeVoidAsync("leafstop.address", address);

    private ValueTask<string> Screen() => script.InvokeAsync<string>("leafstop.screen");
}
