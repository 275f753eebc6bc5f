using System.Text.Json;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;

namespace Leafstop.Web.Safety;

/// <summary>Reads the JSON that comes with a request, or says in a sentence why it cannot be read.</summary>
internal static class JsonBody
{
    /// <param name="request">The request.</param>
    /// <param name="mostBytes">More is refused; null for what the host takes anywhere.</param>
    public static async Task<(T? Read, IResult? Refusal)> Read<T>(HttpRequest request, int? mostBytes = null) where T : class
    {
        if (mostBytes is { } most && request.HttpContext.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = most;
        if (!request.HasJsonContentType())
            return (null, PlainProblems.Of(415, "Send this as application/json."));
        if (!IsUtf8(request))
            return (null, PlainProblems.Of(415, "Send this in UTF-8: it is the one encoding that JSON has."));
        try
        {
            return await request.ReadFromJsonAsync<T>(request.HttpContext.RequestAborted) is { } read ? (read, null) : (null, PlainProblems.Of(400, "There is nothing in the request."));
        }
        catch (JsonException wrong)
        {
            return (null, PlainProblems.Of(400, wrong.Path is ['$', '.', .. var member]
                ? $"{member}: there is no such member here, or it has the wrong kind of value."
                : "The request cannot be read: it is not JSON of the right form."));
        }
        catch (BadHttpRequestException tooLarge) when (tooLarge.StatusCode == 413)
        {
            return (null, PlainProblems.Of(413, $"The request is too large: {(mostBytes is { } taken ? $"{taken >> 20} MiB" : "64 KiB")} are the most that is taken."));
        }
        catch (BadHttpRequestException bad)
        {
            return (null, PlainProblems.Of(bad.StatusCode, "The request broke off before it was all here."));
        }
    }

    // A name that no encoding has would be a fault of ours further on.
    private static bool IsUtf8(HttpRequest request) => !MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
        || !type.Charset.HasValue || HeaderUtilities.RemoveQuotes(type.Charset).Equals("utf-8", StringComparison.OrdinalIgnoreCase);
}
