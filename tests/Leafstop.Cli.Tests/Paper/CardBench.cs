using System.Globalization;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>Body A of the job, kept with limits judged at 60 cm, and its card in both sizes.</summary>
public sealed class CardBench : IDisposable
{
    private static readonly (double Iso, double Exact, double ReadNoise)[] Levels =
    [
        (100, 100, 3.6), (200, 200, 3.3), (400, 400, 3.1), (500, 503.968, 1.6), (640, 634.960, 1.55), (800, 800, 1.5), (1600, 1600, 1.4), (3200, 3200, 1.3), (6400, 6400, 1.25),
    ];

    public CardBench()
    {
        string file = Path.Combine(Program.Folder, "body-a.json");
        File.WriteAllText(file, BodyA("Body A", withJudging: true));
        Assert.Equal(0, Program.Run("cameras", "import", file).Code);
        A6 = Made("a6.pdf");
        Wallet = Made("wallet.pdf", "--size", "wallet");
    }

    public RunningProgram Program { get; } = new();

    public string A6 { get; }

    public string Wallet { get; }

    public string Named(string name) => Path.Combine(Program.Folder, name);

    public string Made(string name, params string[] options)
    {
        Ended ended = Program.Run(["card", "--out", Named(name), "--quiet", .. options]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        return Named(name);
    }

    /// <summary>A program that keeps such a body without a judging.</summary>
    internal static RunningProgram Unjudged(string name = "Body A")
    {
        RunningProgram program = new();
        string file = Path.Combine(program.Folder, "plain.json");
        File.WriteAllText(file, BodyA(name, withJudging: false));
        Assert.Equal(0, program.Run("cameras", "import", file).Code);
        return program;
    }

    public void Dispose() => Program.Dispose();

    /// <summary>A camera file: the table of the job, and a judging of 800 (640 to 1000) and 3200 (2500 to 4000).</summary>
    internal static string BodyA(string name, bool withJudging)
    {
        string levels = string.Join(",", Levels.Select(l => string.Create(CultureInfo.InvariantCulture,
            $$"""{"iso":{{l.Iso}},"ladder":"metered","gainElectronsPerDn":{{325.52 / l.Exact}},"gainInterval95":[{{325 / l.Exact}},{{326 / l.Exact}}],"readNoiseElectrons":{{l.ReadNoise}},"readNoiseInterval95":[{{l.ReadNoise - 0.02}},{{l.ReadNoise + 0.02}}],"readNoiseSource":"capFrames","saturationElectrons":{{5e6 / l.Exact}},"clipSeen":true,"usable":true,"flags":[],"reason":null}""")));
        static string Limit(double limit, double low, double high) => string.Create(CultureInfo.InvariantCulture,
            $$"""{"outcome":"reached","answers":24,"blanks":5,"blanksRefused":0,"limitStopsAboveIso100":{{limit}},"interval95Stops":[{{low}},{{high}}],"spreadStops":0.5}""");
        string judging = $$"""
            ,"judgings":[{"begunAt":"2026-10-03T18:00:00Z","judgedAt":"2026-10-03T18:20:00Z","source":"screen","seed":"1","body":"Invented Body A, 14-bit raw, 8256 pixels across",
            "printWidthMm":600,"viewingDistanceMm":600,"tone":"smooth","treatment":"none","ladder":[{"iso":100,"pair":true}],"clean":{{Limit(3.05, 2.75, 3.3)}},"stretch":{{Limit(4.98, 4.7, 5.3)}},"answers":[]}]
            """;
        return $$"""
            {"format":"leafstop-camera","formatVersion":1,"name":"{{name}}","measurements":[{"measuredAt":"2026-03-01T06:50:12Z",
            "camera":{"make":"Invented","model":"Body A","bodyFingerprint":null,"widthPx":8256,"heightPx":5504,"mosaic":"2x2","bits":14},"ladder":"metered","levels":[{{levels}}],
            "gainSteps":[{"belowIso":400,"aboveIso":500,"readNoiseRatio":1.94}]}]{{(withJudging ? judging : "")}}}
            """;
    }
}
