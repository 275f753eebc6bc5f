using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Look.Bench;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Measurement;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;

namespace Leafstop.Web.Features.Judgings;

/// <summary>One judging from the folder to the last answer.</summary>
internal sealed class RunningJudging : IAsyncDisposable
{
    /// <summary>Pixels along a picture, at most: two of them fill any screen, and what is held in memory stays bounded.</summary>
    private const int MostDrawn = 2048;

    // The usual figure for good eyes (common practice, no source). Only a note hangs on it, no scale.
    private static readonly Angle Acuity = Angle.FromArcminutes(1);

    private readonly CancellationTokenSource _stop = new();
    private readonly JudgingOrder _order;
    private readonly JudgingStores _stores;
    private readonly Task _work;
    private readonly Lock _one = new();
    private volatile StepsDone _steps = new("waiting", 0, 0);
    private volatile Outcome? _outcome;
    private readonly bool _isCameraKept;
    private volatile bool _isKept;
    private SideBySideTable? _sideBySide;

    private RunningJudging(JudgingOrder order, JudgingStores stores, SemaphoreSlim turn)
    {
        (_order, _stores, _isKept) = (order, stores, order.Begun is not null);
        _isCameraKept = stores.Cameras.Find(order.Camera) is not null;
        _work = Task.Run(() => WorkAsync(turn));
    }

    /// <summary>Stands for it in addresses; drawn at random.</summary>
    public string Id => _order.Id;

    /// <summary>Where it is judged; null as long as there are no pictures.</summary>
    public JudgingTable? Table => _outcome?.Table;

    /// <summary>True when it ended before it could be judged.</summary>
    public bool HasFailed => _outcome is { Table: null };

    /// <summary>The side-by-side check; null when there is none.</summary>
    public SideBySideTable? SideBySide
    {
        get
        {
            lock (_one)
                return _sideBySide;
        }
    }

    /// <summary>Starts the work and does not wait for it.</summary>
    /// <param name="order">What to judge.</param>
    /// <param name="stores">What to work with.</param>
    /// <param name="turn">Waited for before anything is decoded.</param>
    public static RunningJudging Start(JudgingOrder order, JudgingStores stores, SemaphoreSlim turn) => new(order, stores, turn);

    /// <summary>Begins a side-by-side check of two levels of the ladder. One at a time; it takes nothing from the judging and gives it nothing.</summary>
    /// <returns>The check, or the status and the sentence of the refusal.</returns>
    public (SideBySideTable? Started, int Status, string Why) StartSideBySide(SideBySideWish wish, JudgingTable at)
    {
        Iso[] isos = [.. at.Session.Setup.Ladder.Isos.Select(i => i.Iso)];
        Iso? cleaner = Of(wish.CleanerIso), noisier = Of(wish.NoisierIso);
        if (cleaner is null || noisier is null || cleaner >= noisier)
            return (null, 400, $"cleanerIso and noisierIso: name two levels, the lower one first; this ladder shows {string.Join(", ", isos.Select(i => i.ToDisplay()))}.");
        int trials = wish.Trials ?? SideBySideCheck.UsualTrials;
        if (trials is < 10 or > 200)
            return (null, 400, "trials: a check has 10 to 200.");
        ToneKind tone = at.Session.Setup.Tags.Tone;
        SideBySideCheck check = SideBySideCheck.Begin(wish.Seed ?? JudgingOrder.RandomSeed(), cleaner, noisier, tone, trials);
        lock (_one)
        {
            if (_sideBySide is { } other && other.View().Result is null)
                return (null, 409, "A check is open in this judging already: end it first.");
            _sideBySide = new SideBySideTable(check, trials, tone, at.Pictures.Anew());
            return (_sideBySide, 201, "");
        }

        Iso? Of(double? speed) => speed is { } number && double.IsFinite(number) && number > 0 ? isos.FirstOrDefault(i => i == Iso.FromMarking(number)) : null;
    }

    /// <summary>Ends the side-by-side check. False when there is none.</summary>
    public bool EndSideBySide()
    {
        lock (_one)
        {
            bool was = _sideBySide is not null;
            _sideBySide = null;
            return was;
        }
    }

    /// <summary>How far it is, for the page.</summary>
    public RunningJudgingView View()
    {
        StepsDone steps = _steps;
        RunningJudgingView view = new(
            Id, steps.State, _order.Camera, _order.Folder, _order.Print.WidthMm, _order.Print.ViewingDistanceMm, steps.Done, steps.Total, null, 0, _isKept, _isCameraKept, [], null, [], [], null, null);
        if (_outcome is not { } outcome)
            return view;
        if (outcome.Table is null)
            return view with { State = "failed", Why = outcome.Why };
        (int answers, JudgingResult? result) = outcome.Table.Standing();
        return view with
        {
            State = result is null ? "ready" : "over",
            Answers = answers,
            Notes = outcome.Notes,
            Crops = outcome.Crops,
            Isos = [.. outcome.Table.Session.Setup.Ladder.Isos.Select(i => Marked(i.Iso))],
            Corrections = outcome.Corrections,
            VisibleNoise = result is null ? null : outcome.Noise?.Value,
            Result = result is null ? null : result.View(),
        };
    }

    /// <summary>Ends it; child processes end too. What is kept stays.</summary>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _work.ConfigureAwait(false);
        _stop.Dispose();
    }

    private async Task WorkAsync(SemaphoreSlim turn)
    {
        try
        {
            await turn.WaitAsync(_stop.Token).ConfigureAwait(false);
            try
            {
                _outcome = await MadeAsync().ConfigureAwait(false);
            }
            finally
            {
                turn.Release();
            }
        }
        catch (OperationCanceledException)
        {
            _outcome = Outcome.Failed("This judging was ended.");
        }
        catch (ArgumentException wrong)
        {
            _outcome = Lost(wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidOperationException or UnusableDataFileException)
        {
            _outcome = Outcome.Failed(fault.Message);
        }
        catch (Exception fault)
        {
            // Nobody waits for this work: a fault that is not told here would leave the page waiting for ever.
            _outcome = Outcome.Failed($"A fault in Leafstop itself ended this judging before it began ({fault.GetType().Name}).");
        }
    }

    /// <summary>What is wrong with the files: said as it is at the begin, and later that they are no longer what they were.</summary>
    private Outcome Lost(string why) => Outcome.Failed(_order.Begun is null ? why : JudgingOrder.Changed(_order.Folder));

    private async Task<Outcome> MadeAsync()
    {
        _steps = new StepsDone("measuring", 0, 0);
        BenchAnswer answer = await FolderMeasurement.MeasureAsync(_order.Folder, _stores.Worker, _order.Print, new Steps(this, "measuring"), finding: null, _stop.Token).ConfigureAwait(false);
        if (!answer.HasAnswer || answer.Camera is not { } camera)
            return Lost($"The folder \"{_order.Folder}\" holds no ladder that could be judged. {JudgedLevels.Refusal(answer)}");
        if (JudgedLevels.Refusal(answer) is { } why)
            return Lost(why);
        if (_stores.Cameras.Find(_order.Camera)?.RefusalOf(camera) is { } other)
            return Outcome.Failed(other);

        double onScreen = _order.ScreenPixelsPerCentimetre;
        ViewingCondition view = ViewingCondition.Of(Length.FromMillimetres(_order.Print.WidthMm), Length.FromMillimetres(_order.Print.ViewingDistanceMm), Acuity);
        double onPrint = view.PixelsPerCentimetre(camera.Width);
        if (onScreen / onPrint is < 1.0 / 64 or > 8)
            return Lost(string.Create(
                CultureInfo.InvariantCulture,
                $"The print would have {onPrint:0.#} pixels on a centimetre and the screen has {onScreen:0.#}: that is too far apart to be shown. Choose another print width."));
        PrintScale scale = PrintScale.Of(view, camera.Width, onScreen);
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, _order.Crops, _stores.Worker, _stores.Cache, new Steps(this, "cutting"), _stop.Token).ConfigureAwait(false);
        if (crops.Crops.Length == 0)
            return Lost(string.Join(" ", crops.Notes));
        int side = crops.Crops[0].SidePixels;
        if (scale.SizeOf(side) > MostDrawn)
            return Lost($"A crop of {side} sensor pixels would be {scale.SizeOf(side)} pixels wide on this screen, and {MostDrawn} is the most: choose smaller crops or a narrower print.");
        // Before the first answer, not after the last.
        string[] noted = _isCameraKept ? [.. crops.Notes]
            : [$"No camera is kept as \"{_order.Camera}\": your answers will not be stored. Measure it and keep it under that name first, or begin anew with one that is kept.", .. crops.Notes];
        noted = [.. noted, .. JudgedLevels.Of(crops, Tone).LeftOut.Select(l => LevelWords.NotShown(l.Level, l.Why)), .. JudgedLevels.Told(answer).Select(Line)];
        string[] notes = onScreen < onPrint && 10 / onScreen > view.FinestDetail.Millimetres
            ? [.. noted, "This screen is coarser than the print and than the eye at this distance: it shows less noise than the print will. Judge from farther away, on a finer screen, or on a test strip."]
            : noted;
        KeptScene scene = _order.Scene(crops);
        if (Session(answer, crops, scene) is not { } session)
            return Lost("");
        CropsView shown = new(side, camera.Width, camera.Height, [.. crops.Places.Select(JudgingAnswers.View)], Lift(crops)?.Value);
        // What is stored must be what was last stored from here: another host may have gone on with it.
        ImmutableArray<JudgingAnswer> before = _order.Begun?.Answers ?? [];
        Iso[] judged = [.. session.Setup.Ladder.Isos.Select(i => i.Iso)];
        return new(new JudgingTable(session, new LadderPictures(crops, scale), Keep), null, notes, shown)
        {
            Corrections = [.. crops.Corrections.Where(c => judged.Contains(Iso.FromMarking(c.Level.Iso.Speed))).Select(c => new BrightnessCorrectionView(c.Level.Iso.Speed, c.Stops))],
            Noise = new(() => [.. CropNoise.Of(crops, JudgedLevels.Of(crops, Tone).Isos.Select(i => i.Iso), view.PixelsPerDegree(camera.Width)).Select(n => n.View())]),
        };

        void Keep(JudgingSession session)
        {
            _isKept = _stores.Judgings.Advance(_order.Camera, KeptJudging.Of(session, _order.BegunAt, DateTimeOffset.UtcNow) with { Scene = scene }, before);
            before = session.Answers;
        }
    }

    /// <summary>The session, new or gone on with; null when what was kept does not belong to these pictures.</summary>
    private JudgingSession? Session(BenchAnswer answer, DevelopedCrops crops, KeptScene scene)
    {
        LimitTags tags = _order.Begun?.Result.Tags ?? new(answer.Camera!.ToWords(), _order.Print, Tone, NoiseTreatment.None, Lift(crops));
        JudgingLadder ladder = JudgedLevels.Of(crops, tags.Tone).ToLadder();
        return _order.Begun is not { } begun ? JudgingSession.Begin(new JudgingSetup(_order.Seed, ladder, tags))
            : begun.Scene!.SamplesMark == scene.SamplesMark && ladder.Isos.SequenceEqual(JudgingLadder.Of(begun.Ladder).Isos) ? begun.Resume()
            : null;
    }

    /// <summary>A finding with the files that it concerns.</summary>
    private static string Line(Finding finding) => new FrameNames(finding.Frames).Beside(finding) is { Length: > 0 } names ? $"{finding.Text} [{names}]" : finding.Text;

    /// <summary>The smooth places show noise first: that is the tone that is judged, as on a test strip.</summary>
    private ToneKind Tone => _order.Begun?.Result.Tags.Tone ?? ToneKind.Smooth;

    /// <summary>By how much the dark is lifted; null where the scene has none.</summary>
    private static Stops? Lift(DevelopedCrops crops) => crops.Crops.FirstOrDefault(c => c.Subject == CropSubject.Dark) is { } dark ? Stops.Of(dark.LiftStops) : null;

    // As the camera writes it, where it is a mark.
    private static double Marked(Iso iso) => iso.NearestDial() is var dial && Iso.FromMarking(dial.Speed) == iso ? dial.Speed : iso.Speed;

    private sealed record StepsDone(string State, int Done, int Total);

    private sealed record Outcome(JudgingTable? Table, string? Why, IReadOnlyList<string> Notes, CropsView? Crops)
    {
        public IReadOnlyList<BrightnessCorrectionView> Corrections { get; init; } = [];

        /// <summary>Worked out when it is over and told for the first time.</summary>
        public Lazy<IReadOnlyList<CropNoiseView>>? Noise { get; init; }

        public static Outcome Failed(string why) => new(null, why, [], null);
    }

    private sealed class Steps(RunningJudging of, string state) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => of._steps = new StepsDone(state, value.Done, value.Total);
    }
}

/// <summary>What a judging works with.</summary>
internal sealed record JudgingStores(CameraStore Cameras, JudgementStore Judgings, CropCache Cache, WorkerCommand Worker);
