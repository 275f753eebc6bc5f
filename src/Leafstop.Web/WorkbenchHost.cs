using System.Net;
using System.Text.Json.Serialization;
using Leafstop.Raw.Developed;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Measurings;
using Leafstop.Storage.Places;
using Leafstop.Web.Features.Cameras;
using Leafstop.Web.Features.Desk;
using Leafstop.Web.Features.Folders;
using Leafstop.Web.Features.Judgings;
using Leafstop.Web.Features.Light;
using Leafstop.Web.Features.Measurings;
using Leafstop.Web.Features.Page;
using Leafstop.Web.Features.Places;
using Leafstop.Web.Safety;

namespace Leafstop.Web;

/// <summary>Puts the host together.</summary>
internal static class WorkbenchHost
{
    // A browser keeps six to a host; a few windows, and nobody can hold more.
    private const int MostConnections = 64;

    /// <summary>The host, not yet started.</summary>
    public static WebApplication Build(HostWishes wishes)
    {
        // The empty builder reads no settings file and no environment, so that nothing but this line decides where the host listens.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 64 << 10;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Listen(wishes.IsForNetwork ? IPAddress.Any : IPAddress.Loopback, wishes.Port);
        });
        builder.Services.AddRoutingCore();
        // A number is a number: the document says so, and what is written as a text is refused.
        builder.Services.ConfigureHttpJsonOptions(json => json.SerializerOptions.NumberHandling = JsonNumberHandling.Strict);
        ApiDocument.Describe(builder.Services);
        DataFile file = new(wishes.DataFolder);
        CameraStore cameras = new(file);
        JudgementStore judgings = new(file);
        builder.Services.AddSingleton(cameras);
        builder.Services.AddSingleton(judgings);
        builder.Services.AddSingleton(new PlaceStore(file));
        NamedFolders named = new(wishes.Folders);
        builder.Services.AddSingleton(named);
        builder.Services.AddSingleton(new MeasuringStore(file));
        builder.Services.AddSingleton(wishes);
        // Made by the container, so that they are ended with the host.
        builder.Services.AddSingleton<DecodingTurn>();
        builder.Services.AddSingleton(of => new RunningJudgings(new JudgingStores(cameras, judgings, new CropCache(wishes.CropFolder), wishes.Worker), named, of.GetRequiredService<DecodingTurn>()));
        builder.Services.AddSingleton(of => new RunningMeasurings(of.GetRequiredService<MeasuringStore>(), named, wishes.Worker, of.GetRequiredService<DecodingTurn>()));

        WebApplication host = builder.Build();
        host.Use(new OwnOriginOnly(new OwnNames(wishes.IsForNetwork)).Guard);
        host.Use(PlainProblems.Tell);
        host.Use(new Door(wishes.Key).Guard);
        PageFiles page = new(wishes.PageFolder);
        host.Use(page.Answer);
        host.Use(new OpenedPage(page, cameras, judgings).Answer);
        host.UseRouting();
        RouteGroupBuilder api = host.MapGroup("/api").ProducesProblem(401).ProducesProblem(403);
        FolderRoutes.Map(api);
        CameraRoutes.Map(api);
        DeskRoutes.Map(api);
        MeasuringRoutes.Map(api);
        AnswerRoutes.Map(api);
        CameraKeeping.Map(api);
        PlaceRoutes.Map(api);
        PlaceKeeping.Map(api);
        LightRoutes.Map(api);
        JudgingRoutes.Map(api);
        RunningJudgingRoutes.Map(api);
        SideBySideRoutes.Map(api);
        host.MapOpenApi(ApiDocument.Address);
        host.Lifetime.ApplicationStarted.Register(() => GoOn(host.Services.GetRequiredService<RunningMeasurings>()));
        return host;
    }

    /// <summary>Goes on with what an earlier host was killed over.</summary>
    private static void GoOn(RunningMeasurings measurings)
    {
        try
        {
            measurings.PickUp();
        }
        catch (UnusableDataFileException)
        {
            // Told in its own words by the first request that needs the file.
        }
    }
}
