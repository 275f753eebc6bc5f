namespace Leafstop.Web.Safety;

/// <summary>Names of files that are handed out.</summary>
internal static class SafeName
{
    /// <summary>"body-a.json": what any file system takes.</summary>
    /// <param name="name">What a person called it.</param>
    /// <param name="otherwise">The name where nothing of it can stay.</param>
    public static string Of(string name, string otherwise) =>
        new string([.. name.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')]).Trim('-') is { Length: > 0 } safe ? safe + ".json" : otherwise;
}
