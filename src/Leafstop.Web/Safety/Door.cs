using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http.Extensions;

namespace Leafstop.Web.Safety;

/// <summary>Lets in who shows the key of the printed address. A browser shows it once and gets a cookie for it, so that it stays neither in the address bar nor in
/// the history; a program sends it as a bearer token. Other people of the same machine, who can reach the port too, have neither.</summary>
internal sealed class Door(string key)
{
    /// <summary>The word before the key in an address.</summary>
    public const string KeyWord = "key";

    private const string Shut = "This host opens with the address that was printed when it was started: it ends with a key. Open that address in this browser.";

    private readonly byte[] _key = Encoding.UTF8.GetBytes(key);
    private readonly string _pass = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(18));

    public Task Guard(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        // Browsers keep cookies by machine and not by port: two hosts must not take each other's.
        string cookie = $"leafstop-{context.Connection.LocalPort}";
        if (request.Query[KeyWord] is [{ } shown] && HttpMethods.IsGet(request.Method) && Same(shown, _key))
        {
            context.Response.Cookies.Append(cookie, _pass, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true });
            QueryBuilder others = new(request.Query.Where(q => q.Key != KeyWord));
            context.Response.StatusCode = StatusCodes.Status303SeeOther;
            context.Response.Headers.Location = request.Path.ToUriComponent() + others.ToQueryString();
            return Task.CompletedTask;
        }
        bool isKnown = request.Cookies[cookie] is { } pass && Same(pass, Encoding.UTF8.GetBytes(_pass))
            || request.Headers.Authorization is [{ } bearer] && bearer.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) && Same(bearer[7..].Trim(), _key);
        return isKnown ? next(context) : Refuse(context);
    }

    private static bool Same(string shown, byte[] wanted) => CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(shown), wanted);

    private static Task Refuse(HttpContext context) => context.Request.Path.StartsWithSegments("/api") || !context.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal)
        ? PlainProblems.Of(401, Shut).ExecuteAsync(context)
        : Results.Text(
            $"""<!doctype html><html lang="en-GB"><head><meta charset="utf-8"><meta name="color-scheme" content="dark"><title>Leafstop</title></head><body><h1>Leafstop is shut here.</h1><p>{Shut}</p></body></html>""",
            "text/html", Encoding.UTF8, 401).ExecuteAsync(context);
}
