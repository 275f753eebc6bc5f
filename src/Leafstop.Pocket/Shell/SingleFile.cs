using System;
using System.Collections.Generic;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Build.Framework;
using Microsoft.Build.Utilities;

/// <summary>Puts the published files, style, type and script into one HTML file.</summary>
public sealed class SingleFile : Task
{
    /// <summary>What Shell/page.js replaces in the runtime's scripts. A script made from text has no address, so each place that asks for one must be known.</summary>
    private const string OwnAddress = "import.meta";

    /// <summary>How often each script asks, in the runtime this was written for (10.0). Another count means another runtime: look at the new places before changing a number.</summary>
    private static readonly Dictionary<string, int> Known = new Dictionary<string, int> { ["dotnet.js"] = 2, ["dotnet.native.js"] = 4, ["dotnet.runtime.js"] = 0 };

    /// <summary>The published _framework folder.</summary>
    [Required]
    public string Framework { get; set; }

    /// <summary>The folder with page.html, page.css, page.js, first.js, part.js.</summary>
    [Required]
    public string Parts { get; set; }

    /// <summary>The folder with tokens.css.</summary>
    [Required]
    public string Look { get; set; }

    /// <summary>The folder with the type.</summary>
    [Required]
    public string Fonts { get; set; }

    /// <summary>The file to write.</summary>
    [Required]
    public string ShellFile { get; set; }

    public override bool Execute()
    {
        string[] files = Directory.GetFiles(Framework).Where(f => f.EndsWith(".js", StringComparison.Ordinal) || f.EndsWith(".wasm", StringComparison.Ordinal) || f.EndsWith(".dat", StringComparison.Ordinal))
            .OrderBy(f => f, StringComparer.Ordinal).ToArray();
        if (!Checked(files))
            return false;
        string first = Part("first.js"), page = Part("page.js"), part = Part("part.js");
        // In the order in which they are needed: the runtime takes longest to compile, its scripts start it, then it asks for the assemblies. A script after each says that it has been read.
        string packed = string.Join("\n", files.OrderBy(f => Path.GetFileName(f) == "dotnet.native.wasm" ? 0 : f.EndsWith(".js", StringComparison.Ordinal) ? 1 : 2)
            .Select(f => "<script type=\"application/gzip\" data-file=\"" + Path.GetFileName(f) + "\">" + Packed(f) + "</script><script>" + part + "</script>"));
        string style = Face("vollkorn-roman.woff2", "normal") + Face("vollkorn-italic.woff2", "italic") + Text(Path.Combine(Look, "tokens.css")) + Part("page.css");
        string policy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; script-src blob: 'wasm-unsafe-eval' " + Hash(first) + " " + Hash(page) + " " + Hash(part);
        string shell = Part("page.html")
            .Replace("{{policy}}", policy).Replace("{{first}}", first).Replace("{{style}}", style).Replace("{{page}}", page).Replace("{{files}}", packed);
        File.WriteAllText(ShellFile, shell, new UTF8Encoding(false));
        Log.LogMessage(MessageImportance.High, "{0}: {1} bytes", ShellFile, new FileInfo(ShellFile).Length);
        return true;
    }

    /// <summary>Refuses a runtime whose scripts ask for their address more or less often than is known, or in other words.</summary>
    private bool Checked(string[] files)
    {
        string[] scripts = files.Where(f => f.EndsWith(".js", StringComparison.Ordinal)).ToArray();
        foreach (string missing in Known.Keys.Except(scripts.Select(f => Path.GetFileName(f))))
            Log.LogError("{0} is not among the published files: the runtime is laid out in another way. Look at Shell/page.js before trusting the page.", missing);
        foreach (string script in scripts)
        {
            string name = Path.GetFileName(script), text = File.ReadAllText(script);
            int asks = Count(text, OwnAddress), asksPlainly = Count(text, OwnAddress + ".url");
            if (!Known.TryGetValue(name, out int known))
                Log.LogError("{0} is a script that is not known here. Look at Shell/page.js before trusting the page.", name);
            else if (asks != known || asksPlainly != known)
                Log.LogError("{0} asks for its address {1} times ({2} in the known words), not {3} times: the runtime's script has changed. Look at Shell/page.js before trusting the page.", name, asks, asksPlainly, known);
        }
        return !Log.HasLoggedErrors;
    }

    private static int Count(string text, string part) => text.Split(new[] { part }, StringSplitOptions.None).Length - 1;

    private static string Packed(string file)
    {
        using (var packed = new MemoryStream())
        {
            // 3: the smallest size, which the task's own framework has no name for yet.
            using (var zip = new GZipStream(packed, (CompressionLevel)3, true))
            {
                byte[] bytes = File.ReadAllBytes(file);
                zip.Write(bytes, 0, bytes.Length);
            }
            return Convert.ToBase64String(packed.ToArray());
        }
    }

    private string Face(string file, string style) =>
        "@font-face{font-family:\"Leafstop Text\";src:url(data:font/woff2;base64," + Convert.ToBase64String(File.ReadAllBytes(Path.Combine(Fonts, file)))
        + ") format(\"woff2\");font-weight:400 900;font-style:" + style + ";font-display:block}\n";

    private string Part(string name) => Text(Path.Combine(Parts, name));

    private static string Text(string path) => File.ReadAllText(path).Replace("\r\n", "\n");

    private static string Hash(string script)
    {
        using (var sha = SHA256.Create())
            return "'sha256-" + Convert.ToBase64String(sha.ComputeHash(Encoding.UTF8.GetBytes(script))) + "'";
    }
}
