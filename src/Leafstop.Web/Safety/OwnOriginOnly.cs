namespace Leafstop.Web.Safety;

/// <summary>Refuses whoever does not ask the host under its own name: other sites in the same browser, and names that were bent to point here.</summary>
internal static class OwnOriginOnly
{
    private static readonly string[] OwnNames = ["127.0.0.1", "localhost"];

    public static Task Guard(HttpContext context, RequestDelegate next)
    {
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return Refusal(context) is { } why ? PlainProblems.Of(403, why).ExecuteAsync(context) : next(context);
    }

    private static string? Refusal(HttpContext context)
    {
        HostString host = context.Request.Host;
        if (!OwnNames.Contains(host.Host, StringComparer.OrdinalIgnoreCase) || (host.Port ?? 80) != context.Connection.LocalPort)
            return "This host answers only under its own address on this machine.";
        string? origin = context.Request.Headers.Origin;
        if (origin is not null && !origin.Equals($"http://{host}", StringComparison.OrdinalIgnoreCase))
            return "This host answers only its own page, not other sites.";
        // Pictures and forms of other sites come without an Origin; browsers name them here. "none" is an address typed by hand.
        string? site = context.Request.Headers["Sec-Fetch-Site"];
        return site is null or "same-origin" or "none" ? null : "This host answers only its own page, not other sites.";
    }
}
