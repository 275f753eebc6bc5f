namespace Leafstop.Web.Safety;

/// <summary>Refuses whoever does not ask the host under its own name: other sites in the same browser, and names that were bent to point here.</summary>
internal sealed class OwnOriginOnly(OwnNames own)
{
    // No script, style or picture but our own files. Styles that stand on an element are allowed: they cannot run, and every drawing has some.
    private const string Policy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; style-src-attr 'unsafe-inline'; font-src 'self'; img-src 'self' data:; "
        + "connect-src 'self'; base-uri 'self'; form-action 'none'; frame-ancestors 'none'";

    public Task Guard(HttpContext context, RequestDelegate next)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.CacheControl = "no-store";
        headers.XContentTypeOptions = "nosniff";
        headers.ContentSecurityPolicy = Policy;
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        return Refusal(context) is { } why ? PlainProblems.Of(403, why).ExecuteAsync(context) : next(context);
    }

    private string? Refusal(HttpContext context)
    {
        HostString host = context.Request.Host;
        if (!own.Has(host.Host) || (host.Port ?? 80) != context.Connection.LocalPort)
            return "This host answers only under its own address on this machine.";
        string? origin = context.Request.Headers.Origin;
        if (origin is not null && !origin.Equals($"http://{host}", StringComparison.OrdinalIgnoreCase))
            return "This host answers only its own page, not other sites.";
        // Pictures and forms of other sites come without an Origin; browsers name them here. "none" is an address typed by hand.
        string? site = context.Request.Headers["Sec-Fetch-Site"];
        return site is null or "same-origin" or "none" ? null : "This host answers only its own page, not other sites.";
    }
}
