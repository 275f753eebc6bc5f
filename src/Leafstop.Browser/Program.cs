using System.Text.Json;
using Leafstop.Browser;
using Leafstop.Browser.Contracts;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Microsoft.JSInterop;

WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton(_ => new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) });
builder.Services.AddSingleton<Host>();
builder.Services.AddSingleton(of => new ThisBrowser(of.GetRequiredService<IJSRuntime>(), PageScript.Light()));
builder.Services.AddSingleton(new SentAlong(PageScript.SentAlong() is { } desk ? JsonSerializer.Deserialize(desk, ContractJson.Default.DeskCameraViewArray) : null));
await builder.Build().RunAsync();
