using Microsoft.AspNetCore.Http.Features;

namespace Leafstop.Web.Safety;

/// <summary>Names that people gave, as parts of an address.</summary>
internal static class NameInAddress
{
    /// <summary>A part of the address as it was meant. The host leaves a slash in a part encoded, because it would be taken for the end of the part, and so it cannot be told from a name that holds "%2F"; what
    /// was really sent can.</summary>
    /// <param name="context">The request.</param>
    /// <param name="part">Which part, 0 for the first.</param>
    /// <param name="routed">What the route found there.</param>
    public static string Of(HttpContext context, int part, string routed)
    {
        if (!routed.Contains("%2F", StringComparison.OrdinalIgnoreCase))
            return routed;
        string target = context.Features.Get<IHttpRequestFeature>()?.RawTarget.Split('?')[0] ?? "";
        string[] parts = target.TrimStart('/').Split('/');
        return target.StartsWith('/') && part < parts.Length ? Uri.UnescapeDataString(parts[part]) : routed;
    }
}
