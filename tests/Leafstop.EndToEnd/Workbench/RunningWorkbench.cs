using System.Diagnostics;
using Leafstop.Testing;

namespace Leafstop.EndToEnd.Workbench;

/// <summary>The workbench as people start it: the program that ./leafstop built, serving a bench of the invented Body A, which is measured and kept.</summary>
public class RunningWorkbench : IDisposable
{
    private static readonly string Built = Path.Combine(Repository.Root, "build", "leafstop", "leafstop");

    private readonly RunningProgram _program = new();
    private readonly Lock _one = new();
    private Process? _serving;
    private string _address = "";

    /// <summary>The folder of raw files.</summary>
    public string Bench => Path.Combine(_program.Folder, "Kitchen bench");

    /// <summary>The address that was printed, with its key; starts the workbench when it does not run.</summary>
    public string Address
    {
        get
        {
            lock (_one)
            {
                if (_serving is null)
                    Start();
                return _address;
            }
        }
    }

    /// <summary>Runs the program on the same data.</summary>
    internal Ended Run(params string[] args)
    {
        _ = Address;
        return _program.Run(args);
    }

    /// <summary>What a call that opens a page says, up to the address it would open, and that address; it is ended then.</summary>
    internal (string Said, string Address) Opens(params string[] args)
    {
        _ = Address;
        using Process process = Process.Start(Call(args))!;
        List<string> said = [];
        string? line;
        while ((line = process.StandardOutput.ReadLine()) is not null && !line.Contains("key=", StringComparison.Ordinal))
            said.Add(line);
        if (line is null)
            Assert.Fail(string.Join(' ', said) + process.StandardError.ReadToEnd());
        process.Kill();
        process.WaitForExit();
        return (string.Join(' ', said), line.Split(' ')[^1]);
    }

    /// <summary>Ends it as a power cut would, and waits until its host is gone too.</summary>
    public async Task Kill()
    {
        string address = new Uri(Address).GetLeftPart(UriPartial.Authority);
        _serving!.Kill();
        await _serving.WaitForExitAsync(TestContext.Current.CancellationToken);
        _serving.Dispose();
        _serving = null;
        using HttpClient client = new();
        for (int i = 0; i < 100; i++)
        {
            try
            {
                using HttpResponseMessage response = await client.GetAsync(address, TestContext.Current.CancellationToken);
            }
            catch (HttpRequestException)
            {
                return;
            }
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
        Assert.Fail("The host outlives the program that started it by five seconds.");
    }

    /// <summary>Asks it to end as Ctrl-C does; the exit code.</summary>
    public async Task<int> Interrupt()
    {
        _ = Address;
        using (Process asked = Process.Start("kill", ["-INT", _serving!.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
            await asked.WaitForExitAsync(TestContext.Current.CancellationToken);
        await _serving.WaitForExitAsync(TestContext.Current.CancellationToken);
        int code = _serving.ExitCode;
        _serving.Dispose();
        _serving = null;
        return code;
    }

    /// <summary>Where everything of this fixture lies.</summary>
    private protected string ProgramFolder => _program.Folder;

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        _serving?.Kill(entireProcessTree: true);
        _serving?.WaitForExit();
        _serving?.Dispose();
        _program.Dispose();
    }

    private void Start()
    {
        Assert.SkipUnless(File.Exists(Path.Combine(Repository.Root, "build", "leafstop.stamp")), "the program was not built by ./leafstop before");
        string served = Prepared();
        _serving = Process.Start(Call(["serve", served, "--no-open"]))!;
        // "The workbench is at http://127.0.0.1:40123/?key=…"
        string line = _serving.StandardOutput.ReadLine() ?? "";
        if (!line.Contains("/?key=", StringComparison.Ordinal))
            Assert.Fail(line + _serving.StandardError.ReadToEnd());
        _address = line.Split(' ')[^1];
    }

    private ProcessStartInfo Call(IEnumerable<string> args)
    {
        ProcessStartInfo start = new(Built, args) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["LEAFSTOP_DATA"] = _program.Data;
        return start;
    }

    /// <summary>Makes what is served, once; the folder to name.</summary>
    private protected virtual string Prepared()
    {
        if (!Directory.Exists(Bench))
        {
            Done("sample", Bench, "--size", "1200x800", "--isos", "100 200 400 800 1600 3200 6400", "--caps", "0", "--quiet");
            Done("measure", Bench, "--save", "Body A", "--quiet");
        }

        return Bench;
    }

    /// <summary>Runs the program to a good end.</summary>
    private protected void Done(string verb, params string[] words)
    {
        Ended ended = _program.Run([verb, .. words]);
        Assert.True(ended.Code == 0, ended.Error);
    }
}
