using System.Text.Json;
using Leafstop.Browser;
using Leafstop.Browser.Contracts;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Microsoft.JSInterop;

// The host refers to the parts of the page, and never runs this.
if (!OperatingSystem.IsBrowser())
    return;

string light = PageScript.Light();
DeskCameraView[]? desk = PageScript.SentAlong() is { } sent ? JsonSerializer.Deserialize(sent, ContractJson.Default.DeskCameraViewArray) : null;
WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.RootComponents.Add<HeadOutlet>("head::after");
builder.Services.AddSingleton(new Host(PageScript.Ask));
builder.Services.AddSingleton(of => new ThisBrowser(of.GetRequiredService<IJSRuntime>(), light));
builder.Services.AddSingleton(new SentAlong(desk));
await builder.Build().RunAsync();
