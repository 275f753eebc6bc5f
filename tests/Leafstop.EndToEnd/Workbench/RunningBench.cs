namespace Leafstop.EndToEnd.Workbench;

/// <summary>A workbench whose data folder is empty, over three ladders of the invented Body A: one sound, one with a lamp that drifted, one large enough to be stopped in.</summary>
public sealed class RunningBench : RunningWorkbench
{
    /// <summary>The folder that is named.</summary>
    public string Folder => Path.Combine(ProgramFolder, "frames");

    /// <summary>A ladder that takes some seconds.</summary>
    public string Large => Path.Combine(Folder, "large");

    /// <summary>The address of a page, with its key.</summary>
    public string At(string page) => Address.Replace("/?", $"/{page}{(page.Contains('?') ? "&" : "?")}", StringComparison.Ordinal);

    private protected override string Prepared()
    {
        if (!Directory.Exists(Folder))
        {
            string[] small = ["--size", "600x400", "--isos", "100 200 400 800 1600 3200 6400", "--quiet"];
            Sample(["sound", .. small, "--seed", "2"]);
            Sample(["faulty", .. small, "--fault", "lamp-drift 1600 0.4"]);
            Sample(["large", "--size", "3000x2000", "--isos", "100 200 400 800 1600 3200 6400", "--caps", "0", "--quiet"]);
        }

        return Folder;
    }

    private void Sample(string[] words) => Done("sample", [Path.Combine(Folder, words[0]), .. words[1..]]);
}
