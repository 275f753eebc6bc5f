using System.Reflection;
using System.Xml.Linq;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Architecture;

/// <summary>Who may know whom: Core knows nobody, Raw and Storage know Core, the command line and the web host know both and the look, the pocket page knows Core alone, the page of the workbench Core and the look, the report the look and Raw.</summary>
public sealed class ArrowsTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Leafstop.Core"] = [],
        ["Leafstop.Look"] = ["Leafstop.Core"],
        ["Leafstop.Raw"] = ["Leafstop.Core"],
        ["Leafstop.Storage"] = ["Leafstop.Core"],
        ["Leafstop.Report"] = ["Leafstop.Core", "Leafstop.Look", "Leafstop.Raw"],
        ["Leafstop.Cli"] = ["Leafstop.Core", "Leafstop.Look", "Leafstop.Raw", "Leafstop.Report", "Leafstop.Storage"],
        ["Leafstop.Browser"] = ["Leafstop.Core", "Leafstop.Look"],
        ["Leafstop.Web"] = ["Leafstop.Browser", "Leafstop.Core", "Leafstop.Look", "Leafstop.Raw", "Leafstop.Report", "Leafstop.Storage"],
        ["Leafstop.Pocket"] = ["Leafstop.Core"],
    };

    public static TheoryData<string> Projects => [.. Allowed.Keys];

    [Fact]
    public void Every_project_under_src_has_its_arrows_written_down_here() =>
        Assert.Equal(Allowed.Keys.Order(), Directory.GetDirectories(Path.Combine(Repository.Root, "src")).Select(Path.GetFileName).Order());

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_files_point_only_where_they_may(string project)
    {
        XDocument file = XDocument.Load(Path.Combine(Repository.Root, "src", project, project + ".csproj"));
        string[] references = [.. file.Descendants("ProjectReference").Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value))];
        Assert.Empty(references.Except(Allowed[project]));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Built_assemblies_use_only_what_they_may(string project)
    {
        string name = project == "Leafstop.Cli" ? "leafstop" : project;
        // The host is not among what these tests run with: its framework would take the place of packages that the program brings along. Nor are the pages, which are built for a browser.
        string folder = project is "Leafstop.Web" or "Leafstop.Browser" or "Leafstop.Pocket"
            ? AppContext.BaseDirectory.Replace(Path.Combine("tests", "Leafstop.Cli.Tests"), Path.Combine("src", project), StringComparison.Ordinal)
            : AppContext.BaseDirectory;
        Assembly assembly = Assembly.LoadFrom(Path.Combine(folder, name + ".dll"));
        string[] used = [.. assembly.GetReferencedAssemblies().Select(a => a.Name!).Where(n => n.StartsWith("Leafstop", StringComparison.OrdinalIgnoreCase))];
        Assert.Empty(used.Except(Allowed[project]));
    }

    [Fact]
    public void Core_takes_no_package_that_touches_files_screens_or_databases()
    {
        Assembly core = Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, "Leafstop.Core.dll"));
        string[] outside = [.. core.GetReferencedAssemblies().Select(a => a.Name!).Where(n => !n.StartsWith("System.", StringComparison.Ordinal))];
        Assert.Empty(outside.Except(["MathNet.Numerics", "NodaTime"]));
        Assert.DoesNotContain(core.GetReferencedAssemblies(), a => a.Name is "System.Console" or "System.Net.Http" or "System.Diagnostics.Process");
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Every_project_folder_says_what_belongs_there_and_what_does_not(string project)
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, "src", project, "README.md"));
        Assert.Contains("Belongs here", text, StringComparison.Ordinal);
        Assert.Contains("Does not belong here", text, StringComparison.Ordinal);
    }
}
