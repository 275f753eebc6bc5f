using System.Text.Json;

namespace Leafstop.Web.Safety;

/// <summary>Reads the JSON that comes with a request, or says in a sentence why it cannot be read.</summary>
internal static class JsonBody
{
    public static async Task<(T? Read, IResult? Refusal)> Read<T>(HttpRequest request) where T : class
    {
        if (!request.HasJsonContentType())
            return (null, PlainProblems.Of(415, "Send this as application/json."));
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
        catch (BadHttpRequestException bad)
        {
            return (null, PlainProblems.Of(bad.StatusCode, "The request is too large, or broke off."));
        }
    }
}
