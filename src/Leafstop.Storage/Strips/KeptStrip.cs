using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;

namespace Leafstop.Storage.Strips;

/// <summary>A test strip on paper, as it is remembered until its answers are typed in and after.</summary>
/// <param name="Number">Its number, which draws the letters.</param>
/// <param name="Camera">Name of the camera that the answers belong to; it need not be kept.</param>
/// <param name="MadeAt">When it was made, UTC, to the second.</param>
/// <param name="Ladder">The ISOs it shows, lowest first.</param>
/// <param name="Repeats">How many of them are shown twice.</param>
/// <param name="Tags">What the answers hold for.</param>
public sealed record KeptStrip(long Number, string Camera, DateTimeOffset MadeAt, ImmutableArray<LadderIso> Ladder, int Repeats, LimitTags Tags)
{
    /// <summary>What stands behind each letter.</summary>
    public BlindCodes Codes() => BlindCodes.For(Number, JudgingLadder.Of(Ladder), Repeats);

    /// <summary>True when both show the same behind the same letters, for the same print.</summary>
    public bool ShowsTheSameAs(KeptStrip other) => (Number, Repeats, Tags) == (other.Number, other.Repeats, other.Tags) && Ladder.SequenceEqual(other.Ladder);
}
