using Leafstop.Storage;
using Leafstop.Storage.Judgements;

namespace Leafstop.Web.Safety;

/// <summary>Errors as problem+json with one plain sentence and no trace.</summary>
internal static class PlainProblems
{
    public static IResult Of(int status, string sentence) => Results.Problem(sentence, statusCode: status);

    public static async Task Tell(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
            // Routing refuses these by itself, and without a word.
            if (!context.Response.HasStarted && context.Response.ContentType is null && Sentence(context.Response.StatusCode) is { } sentence)
                await Of(context.Response.StatusCode, sentence).ExecuteAsync(context);
        }
        catch (JudgedElsewhereException elsewhere) when (!context.Response.HasStarted)
        {
            await Of(409, elsewhere.Message).ExecuteAsync(context);
        }
        catch (UnusableDataFileException unusable) when (!context.Response.HasStarted)
        {
            await Of(500, unusable.Message).ExecuteAsync(context);
        }
    }

    private static string? Sentence(int status) => status switch
    {
        404 => "There is nothing at this address.",
        405 => "This address is there, but nothing can be done with it in this way.",
        413 => "The request is too large: 64 KiB are the most that is taken.",
        415 => "Send this as application/json.",
        _ => null,
    };
}
