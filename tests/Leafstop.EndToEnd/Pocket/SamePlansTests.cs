using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Verbs;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Testing;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: the page in Chromium answers as leafstop plan does. The same Core runs on both; what could differ is the runtime's mathematics and how a scene is put together.</summary>
public sealed class SamePlansTests(Chromium chromium, PocketFiles files)
{
    private const int Scenes = 1000;

    /// <summary>Relative; browser and native differ in the last bits of exp, pow and log.</summary>
    private const double Tolerance = 1e-9;

    private static readonly double[] Apertures = [.. Marks.FNumbers(DialStep.Thirds).All.Select(m => m.Exact)];
    private static readonly double[] Shutters = [.. Marks.Shutters(DialStep.Thirds).All.Select(m => m.Exact)];

    /// <summary>Runs the plan verb in this process: everything but the start of a process.</summary>
    private sealed class PlanInProcess : IDisposable
    {
        private readonly StringWriter _out = new(CultureInfo.InvariantCulture);
        private readonly Command _plan;

        public PlanInProcess(string dataFolder)
        {
            Surroundings say = new()
            {
                Out = _out,
                Error = _out,
                OutWidth = null,
                ErrorWidth = null,
                In = null,
                Stop = CancellationToken.None,
                DataOption = new Option<string?>("--data") { DefaultValueFactory = _ => dataFolder },
            };
            _plan = PlanVerb.Build(say);
            _plan.Options.Add(say.DataOption);
        }

        public void Dispose() => _out.Dispose();

        public JsonElement Run(IEnumerable<string> args)
        {
            _out.GetStringBuilder().Clear();
            _plan.Parse([.. args, "--json"]).Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
            return JsonDocument.Parse(_out.ToString()).RootElement;
        }
    }

    [Fact]
    public async Task A_thousand_random_scenes_answer_as_plan_does()
    {
        Random random = new(20261126);
        PocketScreen page = await PocketScreen.Open(await chromium.PageAsync(390, isPhone: true), files.Kept);
        // Cameras: the kept one with its judged limits, and six that were typed in.
        (string Data, string[] Args)[] cameras = [(PocketFiles.DataOf(files.Kept), ["--camera", "Body A"]), .. Enumerable.Range(0, 6).Select(i => Typed(random, i))];
        (string State, string[] Args, int Camera)[] scenes = [.. Enumerable.Range(0, Scenes).Select(_ => Drawn(random, cameras.Length)).Select(s => (s.State, (string[])[.. s.Args, .. cameras[s.Camera].Args], s.Camera))];

        string answers = await page.Page.EvaluateAsync<string>(ReadAnswers, new { data = cameras.Select(c => c.Data).ToArray(), scenes = scenes.Select(s => new { state = s.State, camera = s.Camera }).ToArray() });
        using PlanInProcess plan = new(files.Program.Data);
        JsonElement[] shown = [.. JsonDocument.Parse(answers).RootElement.EnumerateArray()];
        int rows = 0, over = 0;
        for (int i = 0; i < Scenes; i++)
        {
            string what = $"Scene {i}: {string.Join(' ', scenes[i].Args)}";
            JsonElement expected = plan.Run(scenes[i].Args), there = shown[i];
            Close(expected.GetProperty("exposure").GetProperty("isoExact"), there.GetProperty("iso"), what);
            Close(expected.GetProperty("gapStops"), there.GetProperty("gap"), what);
            Close(expected.GetProperty("spare").GetProperty("cleanStops"), there.GetProperty("clean"), what);
            Close(expected.GetProperty("spare").GetProperty("stretchStops"), there.GetProperty("stretch"), what);
            Assert.Equal(expected.GetProperty("verdict").GetString(), there.GetProperty("verdict").GetString());
            if (there.GetProperty("verdict").GetString() is not ("stretch" or "beyond"))
                continue;
            over++;
            JsonElement[] table = [.. expected.GetProperty("giveUp").EnumerateArray()], own = [.. there.GetProperty("rows").EnumerateArray()];
            Assert.True(table.Length == own.Length, $"{what}: {table.Length} ways here, {own.Length} on the page.");
            foreach ((JsonElement row, JsonElement onPage) in table.Zip(own))
            {
                rows++;
                Close(row.GetProperty("isoExact"), onPage.GetProperty("iso"), what);
                if (row.GetProperty("stops").GetDouble() > 1e-9)
                    Close(row.GetProperty("stops"), onPage.GetProperty("stops"), what);
            }
        }
        // Scenes that never pass a limit would not try the table.
        Assert.True(over > Scenes / 5 && rows > Scenes, $"{over} scenes past clean, {rows} rows");
        Assert.Empty(page.Asked);
        await page.Close();
    }

    /// <summary>The same against the program as a process, for a few.</summary>
    [Fact]
    public async Task The_program_itself_says_the_same()
    {
        Random random = new(11);
        PocketScreen page = await PocketScreen.Open(await chromium.PageAsync(390, isPhone: true), files.Kept);
        for (int i = 0; i < 3; i++)
        {
            (string state, string[] args, _) = Drawn(random, 1);
            string answers = await page.Page.EvaluateAsync<string>(ReadAnswers, new { data = new[] { PocketFiles.DataOf(files.Kept) }, scenes = new[] { new { state, camera = 0 } } });
            Ended ended = files.Program.Run(["plan", "--json", "--camera", "Body A", .. args]);
            PocketFiles.Done(ended);
            Close(JsonDocument.Parse(ended.Out).RootElement.GetProperty("exposure").GetProperty("isoExact"), JsonDocument.Parse(answers).RootElement[0].GetProperty("iso"), string.Join(' ', args));
        }
        await page.Close();
    }

    private static void Close(JsonElement expected, JsonElement actual, string what)
    {
        if (expected.ValueKind == JsonValueKind.Null || actual.ValueKind == JsonValueKind.Null)
        {
            Assert.True(expected.ValueKind == actual.ValueKind, $"{what}: {expected} here, {actual} on the page.");
            return;
        }
        double here = expected.GetDouble(), there = actual.GetDouble();
        Assert.True(Math.Abs(here - there) <= Tolerance * Math.Max(1, Math.Abs(here)), string.Create(CultureInfo.InvariantCulture, $"{what}: {here:R} here, {there:R} on the page."));
    }

    /// <summary>A camera typed in, its page written by the program.</summary>
    private (string Data, string[] Args) Typed(Random random, int number)
    {
        // Exact powers, so that marks and literal numbers mean the same.
        double baseIso = Pick(random, [100 * Math.Pow(2, -2 / 3.0), 100, 100 * Math.Pow(2, 2 / 3.0), 200]), clean = baseIso * Math.Pow(2, 2 + random.NextDouble() * 3), stretch = clean * Math.Pow(2, random.NextDouble() * 3);
        string[] args =
        [
            "--base", Text(baseIso), "--clean", Text(Math.Round(clean, 3)), "--stretch", Text(Math.Round(stretch, 3) + 1), "--limit-print", $"{Text(random.Next(20, 120))}cm", "--limit-distance", $"{Text(random.Next(20, 200))}cm",
        ];
        string page = Path.Combine(files.Program.Folder, $"typed{number}.html");
        PocketFiles.Done(files.Program.Run(["pocket", "--data", Path.Combine(files.Program.Folder, "none"), .. args, "--out", page, "--quiet"]));
        return (PocketFiles.DataOf(page), args);
    }

    private static (string State, string[] Args, int Camera) Drawn(Random random, int cameras)
    {
        double aperture = Pick(random, Apertures[3..31]), shutter = Pick(random, Shutters), light = Math.Round(random.NextDouble() * 14 - 1, 6);
        List<string> args = ["--literal", "--aperture", Text(aperture), "--shutter", Text(shutter), "--ev", Text(light)];
        StringBuilder state = new($"{{\"aperture\":{Text(aperture)},\"shutter\":{Text(shutter)},\"light\":{Text(light)}");
        void Add(string json, params string[] words)
        {
            state.Append(',').Append(json);
            args.AddRange(words);
        }

        if (random.Next(2) == 0)
            Add("\"polariser\":true", "--filter", "polariser");
        if (random.Next(3) == 0)
        {
            double foam = Math.Round(random.NextDouble() * 5, 3);
            Add($"\"foam\":{Text(foam)}", "--foam", Text(foam));
        }
        if (random.Next(3) == 0)
        {
            (double width, double distance) = (random.Next(150, 1500), random.Next(250, 3000));
            Add($"\"printWidth\":{Text(width)},\"printDistance\":{Text(distance)}", "--print", $"{Text(width)}mm", "--distance", $"{Text(distance)}mm");
        }
        if (random.Next(5) == 0)
            Add("\"frames\":4", "--average", "4");
        double focal = random.Next(14, 200);
        bool needsLens = false;
        state.Append(",\"focal\":").Append(Text(focal));
        if (random.Next(3) == 0)
        {
            double near = random.Next(500, 8000);
            string far = random.Next(2) == 0 ? "inf" : Text(near * 3);
            Add($"\"depthOn\":true,\"near\":{Text(near)},\"far\":{(far == "inf" ? "\"inf\"" : far)}", "--near", $"{Text(near)}mm", "--far", far == "inf" ? "inf" : $"{far}mm");
            needsLens = true;
        }
        if (random.Next(3) == 0)
        {
            double speed = Math.Round(0.1 + random.NextDouble() * 6, 3), distance = random.Next(1000, 30000), taste = Math.Round(0.5 + random.NextDouble() * 15, 2);
            Add($"\"waterOn\":true,\"waterSpeed\":{Text(speed)},\"waterDistance\":{Text(distance)},\"taste\":{Text(taste)}",
                "--water", $"streak {Text(taste)}%", "--water-speed", $"{Text(speed)}m/s", "--water-distance", $"{Text(distance)}mm");
            needsLens = true;
        }
        if (random.Next(3) == 0)
        {
            // What the wind does on the page is a leaf speed at the command line.
            double distance = random.Next(2000, 30000);
            int force = random.Next(1, 5);
            Beaufort wind = Beaufort.All[force];
            double open = (wind.From.MetresPerSecond + wind.To.MetresPerSecond) / 2;
            Add($"\"leaves\":\"wind\",\"force\":{force},\"site\":\"Stand\",\"leafDistance\":{Text(distance)}",
                "--leaves", "still", "--leaf-distance", $"{Text(distance)}mm", "--wind", $"{Text(open)}m/s", "--site", "stand");
            needsLens = true;
            if (random.Next(2) == 0)
                Add("\"trial\":\"knnkn\"", "--kept", "2 of 5");
        }
        if (needsLens)
            args.AddRange(["--focal", $"{Text(focal)}mm"]);
        return (state.Append('}').ToString(), [.. args], random.Next(cameras));
    }

    private static double Pick(Random random, double[] from) => from[random.Next(from.Length)];

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Opens each scene as the page opens what it remembers, and reads what it then shows: all of the give-up table, part by part.</summary>
    private const string ReadAnswers = """
        ({ data, scenes }) => {
          const main = document.getElementById('page'), number = text => text === null || text === undefined ? null : Number(text);
          const rows = () => [...main.querySelectorAll('button.g')].map(b => ({
            iso: number(b.querySelector('.i data').getAttribute('value')), stops: number(b.querySelector('.s data')?.getAttribute('value') ?? null) }));
          return JSON.stringify(scenes.map(({ state, camera }) => {
            leafstop.open(data[camera], state);
            const iso = main.querySelector('.iso data');
            const answer = { iso: number(iso.getAttribute('value')), gap: number(iso.dataset.gap), clean: number(iso.dataset.clean), stretch: number(iso.dataset.stretch),
              verdict: main.querySelector('.ans').dataset.verdict.toLowerCase(), rows: rows() };
            for (let next; (next = main.querySelector('button.more')) && next.dataset.act !== 'go:gap'; answer.rows.push(...rows())) leafstop.press(next.dataset.act);
            return answer;
          }));
        }
        """;
}
