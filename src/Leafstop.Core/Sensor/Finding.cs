using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Something that the person should know, with the frames it concerns.</summary>
/// <param name="Code">What it is about.</param>
/// <param name="Frames">Files concerned, full paths; empty when it concerns the whole folder.</param>
/// <param name="Text">What is wrong and what to do, in plain words.</param>
/// <param name="Reshoot">True when the frames should be shot again before the scene is taken down.</param>
public sealed record Finding(FindingCode Code, ImmutableArray<string> Frames, string Text, bool Reshoot = false);
