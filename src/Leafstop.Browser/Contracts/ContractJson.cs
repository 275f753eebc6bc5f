using System.Text.Json;
using System.Text.Json.Serialization;

namespace Leafstop.Browser.Contracts;

/// <summary>Reading and writing of what host and page say to each other, made at build time: a trimmed page has no other. Without the code that would write each form faster: it is more to fetch, and what is written here is short.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(FoldersView))]
[JsonSerializable(typeof(CameraView[]))]
[JsonSerializable(typeof(DeskCameraView[]))]
[JsonSerializable(typeof(PlanCameraView))]
[JsonSerializable(typeof(CameraHistoryView))]
[JsonSerializable(typeof(CameraWish))]
[JsonSerializable(typeof(CameraKeptView))]
[JsonSerializable(typeof(LightView))]
[JsonSerializable(typeof(PlaceView))]
[JsonSerializable(typeof(PlaceView[]))]
[JsonSerializable(typeof(PlaceWish))]
[JsonSerializable(typeof(NoteView))]
[JsonSerializable(typeof(NoteWish))]
[JsonSerializable(typeof(RunningJudgingView))]
[JsonSerializable(typeof(RunningJudgingView[]))]
[JsonSerializable(typeof(TrialView))]
[JsonSerializable(typeof(JudgingView[]))]
[JsonSerializable(typeof(JudgingWish))]
[JsonSerializable(typeof(AnswerWish))]
[JsonSerializable(typeof(JsonElement))]
[JsonSerializable(typeof(FolderView[]))]
[JsonSerializable(typeof(MeasuringView))]
[JsonSerializable(typeof(MeasuringView[]))]
[JsonSerializable(typeof(MeasuringWish))]
[JsonSerializable(typeof(SaveWish))]
[JsonSerializable(typeof(SavedView))]
[JsonSerializable(typeof(EarlierView[]))]
[JsonSerializable(typeof(ComparisonView))]
[JsonSerializable(typeof(ProblemView))]
internal sealed partial class ContractJson : JsonSerializerContext;
