using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Testing;
using Leafstop.Testing.Judging;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Pocket pages that the real program wrote, each made once.</summary>
public sealed class PocketFiles : IDisposable
{
    /// <summary>A place whose name would end the element that it lies in.</summary>
    public const string BadName = "Brackenhush </script><b>Wood & Co";

    private readonly Dictionary<string, string> _pages = [];

    public RunningProgram Program { get; } = new();

    /// <summary>Limits typed at the command line: clean 800, stretch 3200 at 60 cm from 60 cm.</summary>
    public string Given => Page("given", p =>
        p.Run("pocket", "--data", Path.Combine(p.Folder, "other"), "--clean", "800", "--stretch", "3200", "--limit-print", "60cm", "--limit-distance", "60cm", "--lenses", "24,35,50,70", "--taste", "4%", "--out", "given.html"));

    /// <summary>A kept camera that was judged twice, places with light notes.</summary>
    public string Kept => Page("kept", p =>
    {
        Keep(p.Data);
        Done(p.Run("places", "add", "Dimble Spout", "--lat", "50.1", "--lon", "-3.25", "--zone", "Europe/London"));
        Done(p.Run("places", "add", BadName, "--lat", "50.2", "--lon", "-3.3", "--zone", "Europe/London"));
        Done(p.Run("places", "note", "Dimble Spout", "--at", "2026-10-17 08:40", "--ev", "6 2/3", "--okta", "8", "--filter", "polariser 1.5"));
        return p.Run("pocket", "--out", "kept.html");
    });

    /// <summary>The data part of a page, as text.</summary>
    public static string DataOf(string page)
    {
        const string Before = "<script id=\"leafstop-data\" type=\"application/json\">";
        string text = File.ReadAllText(page);
        int from = text.IndexOf(Before, StringComparison.Ordinal) + Before.Length;
        return text[from..text.IndexOf("</script>", from, StringComparison.Ordinal)];
    }

    /// <summary>The name under which a page keeps what was set.</summary>
    public static string KeyOf(string page)
    {
        using var data = System.Text.Json.JsonDocument.Parse(DataOf(page));
        return "leafstop-pocket-" + data.RootElement.GetProperty("page").GetString();
    }

    public void Dispose() => Program.Dispose();

    public static void Done(Ended ended) => Assert.True(ended.Code == 0, ended.Error);

    private string Page(string name, Func<RunningProgram, Ended> write)
    {
        lock (_pages)
        {
            if (!_pages.TryGetValue(name, out string? page))
            {
                Done(write(Program));
                _pages[name] = page = Path.Combine(Program.Folder, name + ".html");
            }
            return page;
        }
    }

    /// <summary>Body A of the job, judged once in smooth and later in textured tones by an eye whose limits are known.</summary>
    private static void Keep(string folder)
    {
        DataFile file = new(folder);
        DateTimeOffset morning = new(2026, 3, 1, 6, 50, 0, TimeSpan.Zero);
        BenchAnswer bench = new()
        {
            Camera = new CameraIdentity { Make = "Invented", Model = "Body A", Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 },
            Ladder = LadderKind.Metered,
            Levels = [BodyALevels.Level(100, 3.052, 3.6, 50000), BodyALevels.Level(400, 0.763, 3.1, 12500), BodyALevels.Level(500, 0.605, 1.6, 9921), BodyALevels.Level(6400, 0.0477, 1.25, 781)],
            GainSteps = [new GainStep(Iso.FromSpeed(400), Iso.FromSpeed(500), 1.94, 512)],
            Findings = [],
        };
        new CameraStore(file).Keep("Body A", [KeptMeasurement.Of(bench, morning)]);
        LimitTags tags = new("Invented Body A, 14-bit raw, 8256 pixels across", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None);
        JudgementStore store = new(file);
        store.Keep("Body A", Judged(1, morning.AddDays(1), tags));
        store.Keep("Body A", Judged(2, morning.AddDays(2), tags with { Tone = ToneKind.Textured }));
    }

    private static KeptJudging Judged(int seed, DateTimeOffset at, LimitTags tags)
    {
        var ladder = JudgingLadder.Of(((double[])[100, 200, 400, 800, 1600, 3200, 6400, 12800, 25600]).Select(i => new LadderIso(Iso.FromMarking(i), true)));
        var session = JudgingSession.Begin(new JudgingSetup(seed, ladder, tags));
        new SimulatedObserver(seed) { SpreadStops = 0.3 }.Judge(session);
        return KeptJudging.Of(session, at, at.AddMinutes(8));
    }
}
