using System.Text.Json;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Developed;
using Leafstop.Storage.Judgements;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What goes out of a judging.</summary>
internal static class JudgingAnswers
{
    public static JudgingView View(this KeptJudging kept)
    {
        LimitTags tags = kept.Result.Tags;
        bool isFinished = !kept.IsUnfinished;
        return new(
            isFinished ? null : kept.Scene?.Name, kept.Key, kept.BegunAt, kept.JudgedAt, kept.DroppedAt, Camel(kept.Source), tags.Print.WidthMm, tags.Print.ViewingDistanceMm, Camel(tags.Tone), Camel(tags.Treatment), tags.Lift?.Value,
            kept.Answers.Length, isFinished,
            isFinished ? kept.Result.Clean.View() : null,
            isFinished ? kept.Result.Stretch.View() : null,
            isFinished ? kept.Result.HasLimits : null,
            isFinished ? kept.Result.ToSentences() : null);
    }

    public static ResultView View(this JudgingResult result) => new(result.Clean.View(), result.Stretch.View(), result.HasLimits, result.ToSentences());

    public static CropPlaceView View(this CropPosition place) => new(Camel(JudgingOrder.Region(place.Subject)), place.Left, place.Top);

    public static CropNoiseView View(this CropNoise noise) => new(
        noise.Level.Iso.Speed, Camel(JudgingOrder.Region(noise.Subject)), noise.Measured.Grain.View(), noise.Measured.GrainError, noise.Predicted?.View(),
        noise.Measured.Banding.Rows, noise.Measured.Banding.Columns, noise.Measured.Banding.IsFound, noise.Measured.AtBlackOrWhite);

    private static LabSpreadView View(this VisibleNoise noise) => new(noise.Lightness, noise.RedGreen, noise.YellowBlue);

    public static TrialView View(this ShownTrial shown, string id) => new(
        shown.Token, shown.Trial.Number, shown.Trial.Question.Ask(), shown.Trial.IsMirrored,
        [.. shown.Pictures.Select(p => new TrialPictureView(Camel(p.Region), $"/api/judgings/{id}/pictures/{p.Address}"))]);

    public static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    private static JudgedLimitView View(this QuestionReading reading) =>
        new(Camel(reading.Outcome), reading.Answers, reading.Limit?.Speed, reading.Low?.Speed, reading.High?.Speed);
}
