using System.IO.Compression;
using System.Text;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: what a pocket page holds as it was built, read as a file: its size, and the scripts of the runtime that it changes. Another SDK brings other scripts: then these tests say where to look.</summary>
public sealed class PocketBuiltTests(PocketFiles files)
{
    /// <summary>A mail and a slow line take it.</summary>
    private const int MostBytes = 3_000_000;

    private const string Address = "import.meta", Look = "The runtime's scripts are not those that the page was written for. Look at src/Leafstop.Pocket/Shell/page.js and SingleFile.cs, try the page in a browser, then write down the new count.";

    /// <summary>How often each script of the runtime asks for its own address, which a script made from text has not got; .NET 10.</summary>
    private static readonly Dictionary<string, int> Asked = new() { ["dotnet.js"] = 2, ["dotnet.native.js"] = 4, ["dotnet.runtime.js"] = 0 };

    [Fact]
    public void A_page_with_cameras_lenses_and_places_is_no_larger_than_three_megabytes()
    {
        foreach (string page in (string[])[files.Given, files.Kept])
            Assert.InRange(new FileInfo(page).Length, 1, MostBytes);
    }

    [Fact]
    public void The_scripts_of_the_runtime_ask_for_their_address_as_often_as_is_known()
    {
        Dictionary<string, byte[]> packed = Packed();
        string[] scripts = [.. packed.Keys.Where(n => n.EndsWith(".js", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        Assert.True(scripts.SequenceEqual(Asked.Keys.Order(StringComparer.Ordinal)), $"{string.Join(", ", scripts)}: {Look}");
        foreach ((string name, int known) in Asked)
        {
            string script = Encoding.UTF8.GetString(packed[name]);
            Assert.True(Count(script, Address) == known, $"{name} asks {Count(script, Address)} times, not {known}. {Look}");
            // What the page puts in its place stands for these words alone.
            Assert.True(Count(script, Address + ".url") == known, $"{name} asks in other words. {Look}");
        }
    }

    /// <summary>The replacement is in the page's own script, word for word, and the policy names the hashes of all scripts (one stands behind each packed file) and nothing of a network.</summary>
    [Fact]
    public void The_page_replaces_that_address_and_forbids_itself_every_request()
    {
        string page = File.ReadAllText(files.Given);
        Assert.Contains("replaceAll('import.meta.url', ", page, StringComparison.Ordinal);
        string policy = Between(page, "http-equiv=\"Content-Security-Policy\" content=\"", "\"");
        Assert.StartsWith("default-src 'none';", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("connect-src", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        string[] scripts = [.. page.Split("<script>").Skip(1).Select(s => s[..s.IndexOf("</script>", StringComparison.Ordinal)]).Distinct()];
        Assert.Equal(3, scripts.Length);
        Assert.All(scripts, s => Assert.Contains("'sha256-" + Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(Encoding.UTF8.GetBytes(s))) + "'", policy, StringComparison.Ordinal));
    }

    /// <summary>What the resource loader of the page is asked for lies in it: runtime, one assembly at least, nothing that is not packed.</summary>
    [Fact]
    public void Every_packed_file_unpacks_and_the_runtime_is_among_them()
    {
        Dictionary<string, byte[]> packed = Packed();
        Assert.All(packed, file => Assert.True(file.Value.Length > 100, file.Key));
        Assert.Contains("dotnet.native.wasm", packed.Keys);
        byte[] start = [0, (byte)'a', (byte)'s', (byte)'m'];
        Assert.All(packed.Where(f => f.Key.EndsWith(".wasm", StringComparison.Ordinal)), f => Assert.Equal(start, f.Value[..4]));
        Assert.Contains(packed.Keys, name => name.Contains("Leafstop.Pocket", StringComparison.Ordinal));
    }

    private Dictionary<string, byte[]> Packed() =>
        File.ReadAllText(files.Given).Split("<script type=\"application/gzip\" data-file=\"").Skip(1).ToDictionary(part => part[..part.IndexOf('"', StringComparison.Ordinal)], part =>
        {
            using GZipStream zip = new(new MemoryStream(Convert.FromBase64String(Between(part, ">", "</script>"))), CompressionMode.Decompress);
            using MemoryStream file = new();
            zip.CopyTo(file);
            return file.ToArray();
        });

    private static int Count(string text, string part) => text.Split(part).Length - 1;

    private static string Between(string text, string before, string after)
    {
        int from = text.IndexOf(before, StringComparison.Ordinal);
        Assert.True(from >= 0, $"{before} is not in the page.");
        from += before.Length;
        return text[from..text.IndexOf(after, from, StringComparison.Ordinal)];
    }
}
