namespace Leafstop.Storage.Judgements;

/// <summary>A judging was gone on with by another program meanwhile. The message is for the person.</summary>
public sealed class JudgedElsewhereException() : Exception(
    "This judging was gone on with in another window of Leafstop on the same data folder, so this answer was not taken: go on there, or end it here and go on with it anew.");
