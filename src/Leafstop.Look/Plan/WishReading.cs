using System.Globalization;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Look.Plan;

/// <summary>Reads the wishes of a plan: what must be sharp, how the water shall look, leaves that shall be still.</summary>
/// <param name="written">What was written.</param>
/// <param name="assumed">Where to say what is taken for granted.</param>
internal sealed class WishReading(WrittenValues written, List<string> assumed)
{
    private static readonly Length UsualLeaf = Length.FromCentimetres(5);

    /// <summary>Depth; null when not asked.</summary>
    public DepthWish? Depth()
    {
        SubjectDistance? near = ReadDistance(PlanNames.Near), far = ReadDistance(PlanNames.Far);
        if (near is null && far is null)
            return null;
        if (near is null || far is null)
            throw written.Wrong($"{Called(near is null ? PlanNames.Far : PlanNames.Near)} needs {Called(near is null ? PlanNames.Near : PlanNames.Far)}: give both ends of what must be sharp, far may be inf.");
        Lens lens = ReadLens(PlanNames.Near);
        if (near >= far)
            throw written.Wrong($"{written.Example(PlanNames.Near, near.ToDisplay())} is not nearer than {written.Example(PlanNames.Far, far.ToDisplay())}: exchange them.");
        CheckBeyond(lens, near, PlanNames.Near);
        return new DepthWish(DepthDemand.Of(lens, near, far), ReadFormat(), ReadAcuity());
    }

    /// <summary>Water; null when not asked.</summary>
    public WaterWish? Water()
    {
        if (written.Text(PlanNames.Water)?.Trim() is not { } look)
        {
            return new[] { PlanNames.WaterSpeed, PlanNames.WaterDistance }.FirstOrDefault(written.Has) is { } alone
                ? throw written.Wrong($"{Called(alone)} needs {Called(PlanNames.Water)}: say how the water shall look, such as {written.Example(PlanNames.Water, "textured")} or {written.Example(PlanNames.Water, "\"streak 4%\"")}.")
                : null;
        }
        Speed speed = written.Struct<Speed>(PlanNames.WaterSpeed, Speed.TryParse, s => s.MetresPerSecond is > 0 and <= 60, "water runs faster than 0 and slower than 60 m/s")
            ?? throw written.Wrong($"{Called(PlanNames.Water)} needs {Called(PlanNames.WaterSpeed)}, such as 1m/s. One frame at 1/15 with its streak measured tells it.");
        SubjectDistance distance = ReadDistance(PlanNames.WaterDistance) ?? throw written.Wrong($"{Called(PlanNames.Water)} needs {Called(PlanNames.WaterDistance)}, such as 6m.");
        Lens lens = ReadLens(PlanNames.Water);
        CheckBeyond(lens, distance, PlanNames.WaterDistance);
        if (distance.IsInfinite)
            throw written.Wrong($"{Called(PlanNames.WaterDistance)}: water at infinity does not move in the picture; write its distance, such as 6m.");
        var view = WaterView.Of(lens, distance, ReadFormat());
        if (WaterLooks.Named(look) is { } named)
            return WaterWish.For(view, speed, named);
        string bare = look.StartsWith("streak", StringComparison.OrdinalIgnoreCase) ? look[6..].Trim() : look;
        if (!bare.EndsWith('%') || !Streak.TryParse(bare, out Streak streak, out _) || streak.ShareOfWidth > 10)
            throw written.Wrong($"{Called(PlanNames.Water)}: '{look}' is no look that is known here: write frozen, soft-edged, textured, silk, mist or \"streak 4%\".");
        return WaterWish.For(view, speed, streak);
    }

    /// <summary>Leaves; null when not asked.</summary>
    public LeavesWish? Leaves()
    {
        string[] speeds = [PlanNames.LeafSpeed, PlanNames.WindAtLeaf, PlanNames.Wind];
        if (written.Text(PlanNames.Leaves)?.Trim() is not { } word)
        {
            return speeds.Concat([PlanNames.LeafDistance, PlanNames.LeafSize, PlanNames.Site, PlanNames.Kept]).FirstOrDefault(written.Has) is { } alone
                ? throw written.Wrong($"{Called(alone)} needs {written.Example(PlanNames.Leaves, "still")}.")
                : null;
        }
        if (!word.Equals("still", StringComparison.OrdinalIgnoreCase))
            throw written.Wrong($"{Called(PlanNames.Leaves)}: '{word}' is not known here: write {written.Example(PlanNames.Leaves, "still")}.");
        string[] given = [.. speeds.Where(written.Has)];
        if (given.Length > 1)
            throw written.Wrong($"{Called(given[0])} and {Called(given[1])} both tell how the leaves move: give one of them.");
        if (given.Length == 0)
            throw written.Wrong($"{written.Example(PlanNames.Leaves, "still")} needs to know how they move: give {written.Example(PlanNames.Wind, "3m/s")} with {Called(PlanNames.Site)}, {written.Example(PlanNames.WindAtLeaf, "1m/s")}, or {written.Example(PlanNames.LeafSpeed, "25cm/s")} where you measured it.");
        SubjectDistance distance = ReadDistance(PlanNames.LeafDistance) ?? throw written.Wrong($"{written.Example(PlanNames.Leaves, "still")} needs {Called(PlanNames.LeafDistance)}, such as 10m.");
        Lens lens = ReadLens(PlanNames.Leaves);
        CheckBeyond(lens, distance, PlanNames.LeafDistance);
        (SpeedBand peak, HowKnown how) = ReadPeak(given[0]);
        return new LeavesWish(MovingSubject.Of(lens, distance), peak, ReadFormat(), how, ReadAcuity());
    }

    /// <summary>A trial of frames kept for their leaves; null when none was told.</summary>
    public KeeperTrial? Trial()
    {
        if (written.Text(PlanNames.Kept)?.Trim() is not { } text)
            return null;
        string[] words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words is not [var kept, "of", var frames]
            || !int.TryParse(kept, NumberStyles.None, CultureInfo.InvariantCulture, out int k) || !int.TryParse(frames, NumberStyles.None, CultureInfo.InvariantCulture, out int n))
        {
            throw written.Wrong($"{Called(PlanNames.Kept)}: '{text}' cannot be read: write frames kept of frames shot, such as \"5 of 25\".");
        }
        return n is >= 1 and <= 100_000 && k <= n
            ? KeeperTrial.Of(k, n)
            : throw written.Wrong($"{Called(PlanNames.Kept)}: of {n} frames {k} cannot be kept.");
    }

    private string Called(string name) => written.Called(name);

    private (SpeedBand Peak, HowKnown How) ReadPeak(string given)
    {
        Speed speed = written.Struct<Speed>(given, Speed.TryParse, s => s.MetresPerSecond <= 60, "write a speed up to 60 m/s, such as 3m/s")!.Value;
        bool needsSite = given == PlanNames.Wind;
        if (written.Has(PlanNames.Site) && !needsSite)
            assumed.Add($"{Called(PlanNames.Site)} plays no part: what was measured at the leaves needs no site.");
        if (written.Has(PlanNames.LeafSize) && given == PlanNames.LeafSpeed)
            throw written.Wrong($"{Called(PlanNames.LeafSize)} belongs to a wind: a speed that was measured needs none.");
        if (given == PlanNames.LeafSpeed)
            return (new SpeedBand(speed, speed, speed), HowKnown.Measured);
        Length leaf = written.Struct<Length>(PlanNames.LeafSize, Length.TryParse, l => l.Millimetres is >= 1 and <= 1000, "a leaf is 1 mm to 1 m") ?? UsualLeaf;
        if (!written.Has(PlanNames.LeafSize))
            assumed.Add($"Leaves are taken as 5 cm; give {Called(PlanNames.LeafSize)} where they are not.");
        SpeedBand band = needsSite ? LeafSpeed.From(WindAtLeaf.From(speed, ReadSite()), leaf) : LeafSpeed.From(speed, leaf);
        return (LeafSpeed.AtPeak(band), HowKnown.RuleOfThumb);
    }

    private WindSite ReadSite()
    {
        if (written.Text(PlanNames.Site)?.Trim() is not { } word)
        {
            assumed.Add($"The leaves are taken to stand in the open, where the wind is strongest; give {Called(PlanNames.Site)} where they do not.");
            return WindSite.Open;
        }
        return word.ToLowerInvariant() switch
        {
            "open" => WindSite.Open,
            "stand" => WindSite.Stand,
            "floor" => WindSite.Floor,
            _ => throw written.Wrong($"{Called(PlanNames.Site)}: '{word}' is not known here: write open, stand or floor."),
        };
    }

    private SubjectDistance? ReadDistance(string name) =>
        written.Class<SubjectDistance>(name, SubjectDistance.TryParse, d => d.IsInfinite || d.Metres <= 1e6, "write a distance up to 1000 km, or inf");

    private Lens ReadLens(string asks) => written.Struct<Length>(PlanNames.Focal, Length.TryParse, l => l.Millimetres is >= 1 and <= 10_000, "a focal length lies between 1 mm and 10 m") is { } focal
        ? Lens.Of(focal)
        : throw written.Wrong($"{Called(asks)} needs {Called(PlanNames.Focal)}, such as {written.Example(PlanNames.Focal, "24mm")}.");

    private void CheckBeyond(Lens lens, SubjectDistance distance, string name)
    {
        if (distance.Millimetres <= lens.FocalLength.Millimetres)
            throw written.Wrong($"{Called(name)}: {distance.ToDisplay()} lies inside the focal length of {lens.FocalLength.ToDisplay()}: no lens focuses there.");
    }

    private FrameFormat ReadFormat()
    {
        if (LimitReading.Format(written) is { } given)
            return given;
        string words = $"A frame of 36 × 24 mm is assumed; give yours with {Called(PlanNames.Format)}.";
        if (!assumed.Contains(words))
            assumed.Add(words);
        return FrameFormat.FullFrame;
    }

    private Angle? ReadAcuity() => written.Struct<Angle>(PlanNames.Acuity, WrittenValues.TryArcminutes, a => a.Arcminutes is >= 0.1 and <= 60, "an eye tells 0.1 to 60 minutes of arc apart, write such as 1.43");
}
