using Leafstop.Storage.Cameras;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a judging is started with, as it comes in.</summary>
internal sealed record JudgingWish(string? Folder, string? Camera, double? PrintWidthMm, double? ViewingDistanceMm, double? ScreenPixelsPerCentimetre, long? Seed)
{
    /// <summary>What is wrong with it, in a sentence; null when nothing is.</summary>
    public string? Fault() =>
        string.IsNullOrWhiteSpace(Folder) || !Path.IsPathFullyQualified(Folder) || !Directory.Exists(Folder) ? "folder: give the full path of a folder of raw files that is there."
        : FaultOfName() is { } fault ? fault
        : PrintWidthMm is not (>= 10 and <= 20_000) ? "printWidthMm: a print is 10 to 20000 mm wide."
        : ViewingDistanceMm is not (>= 50 and <= 100_000) ? "viewingDistanceMm: a print is looked at from 50 to 100000 mm."
        : ScreenPixelsPerCentimetre is not (>= 5 and <= 1000) ? "screenPixelsPerCentimetre: a screen has 5 to 1000 pixels on a centimetre."
        : null;

    private string? FaultOfName()
    {
        try
        {
            CameraStore.TidyName(Camera ?? "");
            return null;
        }
        catch (ArgumentException wrong)
        {
            return $"camera: {wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]}";
        }
    }
}

/// <summary>An answer as it comes in.</summary>
internal sealed record AnswerWish(string? Token, string? Reply);
