using System.Reflection;
using Microsoft.OpenApi;

namespace Leafstop.Web;

/// <summary>The OpenAPI document of the host, made from its routes.</summary>
internal static class ApiDocument
{
    /// <summary>Where it is answered.</summary>
    public const string Address = "/api/openapi.json";

    /// <summary>Makes the document part of the host.</summary>
    public static void Describe(IServiceCollection services) => services.AddOpenApi(options => options.AddDocumentTransformer((document, _, _) =>
    {
        document.Info = new OpenApiInfo
        {
            Title = "Leafstop",
            Version = typeof(ApiDocument).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "",
            Description = "For the page of this host, and for programs that send the key of the printed address as a bearer token. Errors are one sentence for the person in \"detail\".",
        };
        return Task.CompletedTask;
    }));

    /// <summary>Says with which errors a route answers, beside 401 and 403, which all have.</summary>
    public static RouteHandlerBuilder Refuses(this RouteHandlerBuilder route, params ReadOnlySpan<int> statuses)
    {
        foreach (int status in statuses)
            route.ProducesProblem(status);
        return route;
    }
}
