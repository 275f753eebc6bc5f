using Leafstop.Storage;

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
        }
        catch (UnusableDataFileException unusable) when (!context.Response.HasStarted)
        {
            await Of(500, unusable.Message).ExecuteAsync(context);
        }
    }
}
