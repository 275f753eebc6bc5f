using System.Globalization;
using System.Security.Cryptography;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
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
    // The usual figure for good eyes (common practice, no source). Only a note hangs on it, no scale.
    private static readonly Angle Acuity = Angle.FromArcminutes(1);

    private readonly CancellationTokenSource _stop = new();
    private readonly JudgingStores _stores;
    private readonly DateTimeOffset _begunAt = DateTimeOffset.UtcNow;
    private readonly Task _work;
    private volatile StepsDone _steps = new("measuring", 0, 0);
    private volatile Outcome? _outcome;
    private volatile bool _isKept;

    private RunningJudging(JudgingWish wish, JudgingStores stores)
    {
        _stores = stores;
        _work = Task.Run(() => WorkAsync(wish));
    }

    /// <summary>Stands for it in addresses; drawn at random.</summary>
    public string Id { get; } = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>Where it is judged; null as long as there are no pictures.</summary>
    public JudgingTable? Table => _outcome?.Table;

    /// <summary>Starts the work and does not wait for it.</summary>
    public static RunningJudging Start(JudgingWish wish, JudgingStores stores) => new(wish, stores);

    /// <summary>How far it is, for the page.</summary>
    public RunningJudgingView View() => _outcome is not { } outcome ? new(Id, _steps.State, _steps.Done, _steps.Total, null, 0, false, [], null)
        : outcome.Table is null ? new(Id, "failed", _steps.Done, _steps.Total, outcome.Why, 0, false, [], null)
        : outcome.Table.Standing() is var (answers, result) && result is null ? new(Id, "ready", _steps.Done, _steps.Total, null, answers, _isKept, outcome.Notes, null)
        : new(Id, "over", _steps.Done, _steps.Total, null, answers, _isKept, outcome.Notes, ResultView.Of(result!));

    /// <summary>Ends it; child processes end too. What is kept stays.</summary>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _work.ConfigureAwait(false);
        _stop.Dispose();
    }

    private async Task WorkAsync(JudgingWish wish)
    {
        try
        {
            _outcome = await MadeAsync(wish).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            _outcome = Outcome.Failed("This judging was ended.");
        }
        catch (ArgumentException wrong)
        {
            _outcome = Outcome.Failed(wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]);
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

    private async Task<Outcome> MadeAsync(JudgingWish wish)
    {
        PrintCondition print = new(wish.PrintWidthMm!.Value, wish.ViewingDistanceMm!.Value);
        BenchAnswer answer = await FolderMeasurement.MeasureAsync(wish.Folder!, _stores.Worker, print, new Steps(this, "measuring"), finding: null, _stop.Token).ConfigureAwait(false);
        if (!answer.HasAnswer || answer.Camera is not { } camera)
            return Outcome.Failed($"The folder \"{wish.Folder}\" holds no ladder that could be judged; measuring it says why.");
        if (_stores.Cameras.Find(wish.Camera!) is { } kept && kept.Body.FullModel != camera.FullModel)
            return Outcome.Failed($"The folder holds frames of {camera.Model}, and {kept.Body.Model} is kept as \"{kept.Name}\": choose the folder or the camera anew.");

        double onScreen = wish.ScreenPixelsPerCentimetre!.Value;
        ViewingCondition view = ViewingCondition.Of(Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), Acuity);
        double onPrint = view.PixelsPerCentimetre(camera.Width);
        if (onScreen / onPrint is < 1.0 / 64 or > 8)
            return Outcome.Failed(string.Create(
                CultureInfo.InvariantCulture,
                $"The print would have {onPrint:0.#} pixels on a centimetre and the screen has {onScreen:0.#}: that is too far apart to be shown. Choose another print width."));

        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), _stores.Worker, _stores.Cache, new Steps(this, "cutting"), _stop.Token).ConfigureAwait(false);
        if (crops.Crops.Length == 0)
            return Outcome.Failed(string.Join(" ", crops.Notes));
        string body = answer.PredictedLimits.FirstOrDefault()?.Body ?? camera.Model;
        // The smooth places show noise first: that is the tone that is judged, as on a test strip.
        LimitTags tags = new(body, print, ToneKind.Smooth, NoiseTreatment.None);
        // Small enough that a page reads the same number back.
        long seed = wish.Seed ?? BitConverter.ToInt64(RandomNumberGenerator.GetBytes(8)) & ((1L << 52) - 1);
        JudgingSetup setup = new(seed, LadderPictures.Ladder(crops, tags.Tone), tags);
        string[] notes = onScreen < onPrint && 10 / onScreen > view.FinestDetail.Millimetres
            ? [.. crops.Notes, "This screen is coarser than the print and than the eye at this distance: it shows less noise than the print will. Judge from farther away, on a finer screen, or on a test strip."]
            : [.. crops.Notes];
        return new(new JudgingTable(setup, new LadderPictures(crops, PrintScale.Of(view, camera.Width, onScreen)), Keep), null, notes);

        void Keep(JudgingSession session) => _isKept = _stores.Judgings.Keep(wish.Camera!, KeptJudging.Of(session, _begunAt, DateTimeOffset.UtcNow));
    }

    private sealed record StepsDone(string State, int Done, int Total);

    private sealed record Outcome(JudgingTable? Table, string? Why, IReadOnlyList<string> Notes)
    {
        public static Outcome Failed(string why) => new(null, why, []);
    }

    private sealed class Steps(RunningJudging of, string state) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => of._steps = new StepsDone(state, value.Done, value.Total);
    }
}

/// <summary>What a judging works with.</summary>
internal sealed record JudgingStores(CameraStore Cameras, JudgementStore Judgings, CropCache Cache, WorkerCommand Worker);
