using System.Reflection;
using System.Security.Cryptography;
using System.Text;

namespace Leafstop.Report;

/// <summary>Style sheets, type and script of the report, from this assembly.</summary>
public static class ReportResources
{
    /// <summary>All style, the type inside as base64.</summary>
    public static string Style() => $"{Face("vollkorn-roman.woff2", "normal")}{Face("vollkorn-italic.woff2", "italic")}{Read("tokens.css")}{Read("look.css")}{Read("bench.css")}{Read("report.css")}";

    /// <summary>The theme switch, and the keys of the plots.</summary>
    public static string Script() => Read("theme.js") + Read("plots.js");

    /// <summary>What the page may do: show what it carries, run the one script that it carries, and ask for nothing.</summary>
    public static string ContentPolicy(string script) =>
        "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; script-src 'sha256-"
        + Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script))) + "'";

    private static string Face(string file, string style) =>
        $"@font-face{{font-family:\"Leafstop Text\";src:url(data:font/woff2;base64,{Convert.ToBase64String(Bytes(file))}) format(\"woff2\");font-weight:400 900;font-style:{style};font-display:block}}\n";

    private static string Read(string file) => Encoding.UTF8.GetString(Bytes(file)).ReplaceLineEndings("\n");

    private static byte[] Bytes(string file)
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("Report/" + file)
            ?? throw new InvalidOperationException($"The report's part {file} is not in the program.");
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.ToArray();
    }
}
