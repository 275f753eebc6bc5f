using System.Diagnostics;
using System.Globalization;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Testing.Judging;

namespace Leafstop.Benchmarks;

/// <summary>Lets seeded observers of known limits judge, with the stopping rule in force, and tells how true the answers are. The table of docs/method/judging.md.</summary>
internal static class JudgingCampaign
{
    // No rule and no prior was chosen on these.
    private const int FirstSeed = 210_000;

    private static readonly double[] Whole = [.. Enumerable.Range(0, 9).Select(i => 100 * Math.Pow(2, i))];
    private static readonly double[] Thirds = [.. Enumerable.Range(0, 25).Select(i => 100 * Math.Pow(2, i / 3.0))];
    private static readonly LimitTags Tags = new("Body A, 14 bit", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None);

    private sealed record Case(string Name, double[] Ladder, Func<int, SimulatedObserver> Observer, bool IsPromised, bool HasPairs = true, bool IsOnPaper = false);

    private sealed record Judged(QuestionReading Reading, double Truth, double ChoiceMs);

    /// <param name="args">Runs a line, 500 when not given; then words that a line's name must hold; "from" and a number to begin with other seeds.</param>
    public static int Run(string[] args)
    {
        int runs = args is [var count, ..] && int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int n) ? Math.Max(1, n) : 500;
        int from = Array.IndexOf(args, "from"), firstSeed = from >= 0 ? int.Parse(args[from + 1], CultureInfo.InvariantCulture) : FirstSeed;
        string[] words = [.. args.Where((_, i) => i > 0 && (from < 0 || (i != from && i != from + 1)))];
        bool good = true;
        Console.WriteLine($"{runs} runs a line, both questions of each, seeds from {firstSeed}; ladders ISO 100 to 25600, on paper to 12800; a lapse of 2 % unless said otherwise");
        Console.WriteLine("observer                                    limit %  bias stop  rms   cover %  answers (10-90 %)  within 1/3 %  half-width  drift %");
        foreach (Case one in Cases().Where(c => words.All(w => c.Name.Contains(w, StringComparison.Ordinal))))
            good &= Tell(one, runs, firstSeed);
        foreach ((string name, Func<int, SideBySideObserver> eye, bool isBinomial) in SideBySideCases())
        {
            if (words.All(w => name.Contains(w, StringComparison.Ordinal)))
                good &= TellSideBySide(name, eye, isBinomial, runs, firstSeed);
        }
        return good ? 0 : 1;
    }

    private static IEnumerable<Case> Cases()
    {
        // With pairs a ladder in thirds shows the same levels as one in whole stops.
        foreach (double spread in (double[])[0.3, 0.5, 0.8])
        {
            string label = string.Create(CultureInfo.InvariantCulture, $"spread {spread}");
            yield return new($"{label}, pairs", Whole, s => new(s) { SpreadStops = spread, CleanStops = 3 + Off(s), StretchStops = 5 + Off(s + 7) }, true);
            yield return new($"{label}, pairs, near the ends", Whole, s => new(s) { SpreadStops = spread, CleanStops = 0.5 + Off(s), StretchStops = 7 + Off(s + 7) }, true);
        }
        foreach (double spread in (double[])[0.3, 0.5, 0.8])
        {
            string label = string.Create(CultureInfo.InvariantCulture, $"spread {spread}");
            yield return new($"{label}, single frames, whole stops", Whole, s => new(s) { SpreadStops = spread, CleanStops = 3 + Off(s), StretchStops = 5 + Off(s + 7) }, true, HasPairs: false);
            yield return new($"{label}, single frames, thirds", Thirds, s => new(s) { SpreadStops = spread, CleanStops = 3 + Off(s), StretchStops = 5 + Off(s + 7) }, true, HasPairs: false);
            yield return new($"{label}, on paper, 13 letters", Whole[..8], s => new(s) { SpreadStops = spread, CleanStops = 2.5 + Off(s), StretchStops = 4.5 + Off(s + 7) }, true, IsOnPaper: true);
        }
        yield return new("guessing, on paper", Whole[..8], s => new(s) { Guessing = 0.5 }, false, IsOnPaper: true);
        yield return new("spread 0.5, no lapse", Whole, s => new(s) { Lapse = 0, CleanStops = 3 + Off(s) }, true);
        yield return new("spread 0.5, lapse 5 %", Whole, s => new(s) { Lapse = 0.05, CleanStops = 3 + Off(s) }, true);
        yield return new("spread 0.5, unsure within 0.2", Whole, s => new(s) { UnsureWithin = 0.2, CleanStops = 3 + Off(s) }, false);
        yield return new("Weibull eye, slope 6", Whole, s => new(s) { WeibullSlope = 6, CleanStops = 3 + Off(s) }, false);
        yield return new("Weibull eye, slope 3.5", Whole, s => new(s) { WeibullSlope = 3.5, CleanStops = 3 + Off(s) }, false);
        yield return new("Weibull eye, slope 2.5", Whole, s => new(s) { WeibullSlope = 2.5, CleanStops = 3 + Off(s) }, false);
        yield return new("guessing, 50 %", Whole, s => new(s) { Guessing = 0.5 }, false);
        yield return new("guessing, 30 % objections", Whole, s => new(s) { Guessing = 0.3 }, false);
        yield return new("guessing, 80 % objections", Whole, s => new(s) { Guessing = 0.8 }, false);
        yield return new("always objects", Whole, s => new(s) { Guessing = 1 }, false);
        yield return new("never objects", Whole, s => new(s) { Guessing = 0 }, false);
        yield return new("finger objects in 10 %", Whole, s => new(s) { Objecting = 0.1, CleanStops = 3 + Off(s) }, true);
        yield return new("finger objects in 20 %", Whole, s => new(s) { Objecting = 0.2, CleanStops = 3 + Off(s) }, true);
        yield return new("finger objects in 40 %", Whole, s => new(s) { Objecting = 0.4, CleanStops = 3 + Off(s) }, false);
        yield return new("learns 0.5 stop in 60", Whole, s => new(s) { Learning = 0.5, CleanStops = 3 + Off(s) }, true);
        yield return new("learns 1 stop in 60", Whole, s => new(s) { Learning = 1, CleanStops = 3 + Off(s) }, true);
        yield return new("learns 2 stops in 60", Whole, s => new(s) { Learning = 2, CleanStops = 3 + Off(s) }, true);
    }

    // Limits lie anywhere between the levels of the grid.
    private static double Off(int seed) => seed * 0.6180339887 % 1 - 0.5;

    private static bool Tell(Case one, int runs, int firstSeed)
    {
        Judged[] all = [.. Enumerable.Range(0, runs).AsParallel().AsOrdered().WithDegreeOfParallelism(2).SelectMany(i => Judge(one, firstSeed + i))];
        Judged[] limits = [.. all.Where(r => r.Reading.HasLimit)];
        double[] errors = [.. limits.Select(r => r.Reading.LimitStops!.Value.Value - r.Truth)];
        double bias = errors.Length > 0 ? errors.Average() : double.NaN, rms = errors.Length > 0 ? Math.Sqrt(errors.Average(e => e * e)) : double.NaN;
        double cover = limits.Length > 0 ? 100.0 * limits.Count(r => r.Reading.LimitStops!.Value.Low <= r.Truth && r.Truth <= r.Reading.LimitStops!.Value.High) / limits.Length : double.NaN;
        int[] answers = [.. all.Select(r => r.Reading.Answers).Order()];
        double[] halves = [.. limits.Select(r => (r.Reading.LimitStops!.Value.High - r.Reading.LimitStops!.Value.Low) / 2).Order()];
        double reached = 100.0 * all.Count(r => r.Reading.Outcome == LimitOutcome.Reached) / all.Length;
        double drifted = limits.Length > 0 ? 100.0 * limits.Count(r => Math.Abs(r.Reading.Drift?.StandardErrors ?? 0) >= JudgingRules.DriftSeen) / limits.Length : double.NaN;
        bool good = !one.IsPromised || (Math.Abs(bias) < 0.1 && cover is >= 90 and <= 99);
        string outcomes = string.Join(" ", all.GroupBy(r => r.Reading.Outcome).OrderByDescending(g => g.Count()).Select(g => $"{g.Key} {g.Count()}"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{one.Name,-42} {100.0 * limits.Length / all.Length,7:0.0} {bias,9:0.000} {rms,6:0.000} {cover,8:0.0} {answers[answers.Length / 2],6} ({answers[answers.Length / 10]}-{answers[answers.Length * 9 / 10]}) {reached,13:0.0} {(halves.Length > 0 ? halves[halves.Length / 2] : double.NaN),12:0.00} {drifted,8:0.0}   {all.Max(r => r.ChoiceMs):0} ms {outcomes}{(good ? "" : "  NOT AS PROMISED")}"));
        return good;
    }

    private static IEnumerable<Judged> Judge(Case one, int seed)
    {
        SimulatedObserver observer = one.Observer(seed);
        double clean = observer.CleanStops, stretch = observer.StretchStops;
        JudgingLadder ladder = JudgingLadder.Of(one.Ladder.Select(i => new LadderIso(Iso.FromSpeed(i), one.HasPairs)));
        if (one.IsOnPaper)
        {
            JudgingResult paper = observer.Judge(BlindCodes.For(seed, ladder)).Judge(Tags);
            return [new Judged(paper.Clean, clean, 0), new Judged(paper.Stretch, stretch, 0)];
        }
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(seed, ladder, Tags));
        double slowest = 0;
        while (true)
        {
            long start = Stopwatch.GetTimestamp();
            JudgingTrial? trial = session.Next();
            slowest = session.Answers.Length > 2 ? Math.Max(slowest, Stopwatch.GetElapsedTime(start).TotalMilliseconds) : slowest;
            if (trial is null)
                break;
            session.Answer(trial.Token, observer.Reply(trial.Question, session.Picture(trial.Token).Level.EquivalentStops));
        }
        JudgingResult result = session.Result();
        // Of one who learns the limit half-way through what was asked is taken for the truth.
        double half = observer.Learning * session.Answers.Length / (4.0 * JudgingRules.MostAnswers);
        return [new Judged(result.Clean, clean + half, slowest), new Judged(result.Stretch, stretch + half, slowest)];
    }

    private static IEnumerable<(string Name, Func<int, SideBySideObserver> Eye, bool IsBinomial)> SideBySideCases()
    {
        foreach (double slope in (double[])[2.5, 3.5, 6])
            yield return (string.Create(CultureInfo.InvariantCulture, $"side by side, Weibull slope {slope}"), s => new(s) { Slope = slope }, true);
        yield return ("side by side, \"the same\" where nothing is seen", s => new(s) { SaysSame = true }, false);
        yield return ("side by side, always the left one", s => new(s) { AlwaysLeft = true }, false);
    }

    // The pictures of the check are two ISOs of a ladder; the observer sees a difference of one stop in 63 % of looks.
    private static bool TellSideBySide(string name, Func<int, SideBySideObserver> eye, bool isBinomial, int runs, int firstSeed)
    {
        bool good = true;
        foreach (double stops in (double[])[0.01, 1 / 3.0, 2 / 3.0, 1, 4 / 3.0, 5 / 3.0])
        {
            SideBySideResult[] all =
            [
                .. Enumerable.Range(firstSeed, runs).Select(seed => eye(seed).Judge(SideBySideCheck.Begin(seed, Iso.FromSpeed(800), Iso.FromSpeed(800 * Math.Pow(2, stops)), ToneKind.Smooth), stops)),
            ];
            double seen = (double)all.Count(r => r.IsSeen) / runs, right = all.Average(r => (double)r.Right / r.Answers), expected = Seen(eye(0).Right(stops), SideBySideCheck.UsualTrials);
            // Four standard errors of a share of so many runs; who sees nothing is told a difference in no more than 5 % of checks.
            bool agrees = !isBinomial || Math.Abs(seen - expected) <= 4 * Math.Sqrt(Math.Max(expected * (1 - expected), 1.0 / runs) / runs);
            bool holds = agrees && (stops > 0.1 || seen <= 0.05);
            good &= holds;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{name,-52} {stops:0.00} stop apart: right {100 * right,5:0.0} %, seen in {100 * seen,5:0.0} % of checks of {SideBySideCheck.UsualTrials}{(isBinomial ? string.Create(CultureInfo.InvariantCulture, $" (binomial law {100 * expected:0.0} %)") : "")}{(holds ? "" : "  NOT AS PROMISED")}"));
        }
        return good;
    }

    /// <summary>The chance that a check says "seen" when each answer is right with this chance; no ties.</summary>
    private static double Seen(double right, int trials)
    {
        double sum = 0;
        for (int k = 0; k <= trials; k++)
        {
            if (ChoiceOfTwo.OfGuessing(k, trials).Share < 0.05)
                sum += MathNet.Numerics.Distributions.Binomial.PMF(right, trials, k);
        }
        return sum;
    }
}
