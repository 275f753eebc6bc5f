using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Verbs;

/// <summary>The wishes of a call of leafstop plan: what must be sharp, how the water shall look, leaves that shall be still.</summary>
/// <param name="call">The call.</param>
/// <param name="written">Its options.</param>
/// <param name="assumed">Where to say what is taken for granted.</param>
internal sealed class PlanWishes(ParseResult call, WrittenOptions written, List<string> assumed)
{
    /// <summary>A format in words, for refusals.</summary>
    public const string FormatRange = "write width and height of the sensor, such as 36x24mm";

    private static readonly Length UsualLeaf = Length.FromCentimetres(5);

    /// <summary>True for what can be the sensor of a camera.</summary>
    public static bool IsFormat(FrameFormat format) => format.Diagonal.Millimetres is >= 1 and <= 2000;

    /// <summary>Depth; null when not asked.</summary>
    /// <exception cref="Refusal">Half of it is missing, or it cannot be.</exception>
    public DepthWish? Depth()
    {
        SubjectDistance? near = ReadDistance(PlanOptions.Near), far = ReadDistance(PlanOptions.Far);
        if (near is null && far is null)
            return null;
        if (near is null || far is null)
            throw Refusal.WrongCall($"{(near is null ? "--far" : "--near")} needs {(near is null ? "--near" : "--far")}: give both ends of what must be sharp, far may be inf.");
        Lens lens = ReadLens(PlanOptions.Near);
        if (near >= far)
            throw Refusal.WrongCall($"--near {near.ToDisplay()} is not nearer than --far {far.ToDisplay()}: exchange them.");
        CheckBeyond(lens, near, PlanOptions.Near);
        return new DepthWish(DepthDemand.Of(lens, near, far), ReadFormat(), ReadAcuity());
    }

    /// <summary>Water; null when not asked.</summary>
    /// <exception cref="Refusal">Something is missing or not known.</exception>
    public WaterWish? Water()
    {
        if (!written.Has(PlanOptions.Water))
        {
            return new[] { PlanOptions.WaterSpeed, PlanOptions.WaterDistance }.FirstOrDefault(o => written.Has(o)) is { } alone
                ? throw Refusal.WrongCall($"{alone.Name} needs --water: say how the water shall look, such as --water textured or --water \"streak 4%\".")
                : null;
        }
        string look = call.GetValue(PlanOptions.Water)!.Trim();
        Speed speed = written.Struct<Speed>(PlanOptions.WaterSpeed, Speed.TryParse, s => s.MetresPerSecond is > 0 and <= 60, "water runs faster than 0 and slower than 60 m/s")
            ?? throw Refusal.WrongCall("--water needs --water-speed, such as 1m/s. One frame at 1/15 with its streak measured tells it.");
        SubjectDistance distance = ReadDistance(PlanOptions.WaterDistance) ?? throw Refusal.WrongCall("--water needs --water-distance, such as 6m.");
        Lens lens = ReadLens(PlanOptions.Water);
        CheckBeyond(lens, distance, PlanOptions.WaterDistance);
        if (distance.IsInfinite)
            throw Refusal.WrongCall("--water-distance: water at infinity does not move in the picture; write its distance, such as 6m.");
        var view = WaterView.Of(lens, distance, ReadFormat());
        if (WaterLooks.Named(look) is { } named)
            return WaterWish.For(view, speed, named);
        string bare = look.StartsWith("streak", StringComparison.OrdinalIgnoreCase) ? look[6..].Trim() : look;
        if (!bare.EndsWith('%') || !Streak.TryParse(bare, out Streak streak, out _) || streak.ShareOfWidth > 10)
            throw Refusal.WrongCall($"--water: '{look}' is no look that is known here: write frozen, soft-edged, textured, silk, mist or \"streak 4%\".");
        return WaterWish.For(view, speed, streak);
    }

    /// <summary>Leaves; null when not asked.</summary>
    /// <exception cref="Refusal">Something is missing or contradicts.</exception>
    public LeavesWish? Leaves()
    {
        Option<string?>[] speeds = [PlanOptions.LeafSpeed, PlanOptions.WindAtLeaf, PlanOptions.Wind];
        if (!written.Has(PlanOptions.Leaves))
        {
            return speeds.Concat([PlanOptions.LeafDistance, PlanOptions.LeafSize, PlanOptions.Site, PlanOptions.Kept]).FirstOrDefault(o => written.Has(o)) is { } alone
                ? throw Refusal.WrongCall($"{alone.Name} needs --leaves still.")
                : null;
        }
        if (call.GetValue(PlanOptions.Leaves)!.Trim() is var word && !word.Equals("still", StringComparison.OrdinalIgnoreCase))
            throw Refusal.WrongCall($"--leaves: '{word}' is not known here: write --leaves still.");
        Option<string?>[] given = [.. speeds.Where(o => written.Has(o))];
        if (given.Length > 1)
            throw Refusal.WrongCall($"{given[0].Name} and {given[1].Name} both tell how the leaves move: give one of them.");
        if (given.Length == 0)
            throw Refusal.WrongCall("--leaves still needs to know how they move: give --wind 3m/s with --site, --wind-at-leaf 1m/s, or --leaf-speed 25cm/s where you measured it.");
        SubjectDistance distance = ReadDistance(PlanOptions.LeafDistance) ?? throw Refusal.WrongCall("--leaves still needs --leaf-distance, such as 10m.");
        Lens lens = ReadLens(PlanOptions.Leaves);
        CheckBeyond(lens, distance, PlanOptions.LeafDistance);
        (SpeedBand peak, HowKnown how) = ReadPeak(given[0]);
        return new LeavesWish(MovingSubject.Of(lens, distance), peak, ReadFormat(), how, ReadAcuity());
    }

    /// <summary>A trial of frames kept for their leaves; null when none was told.</summary>
    /// <exception cref="Refusal">Not readable, or more kept than shot.</exception>
    public KeeperTrial? Trial()
    {
        if (!written.Has(PlanOptions.Kept))
            return null;
        string text = call.GetValue(PlanOptions.Kept)!.Trim();
        string[] words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words is not [var kept, "of", var frames]
            || !int.TryParse(kept, NumberStyles.None, CultureInfo.InvariantCulture, out int k) || !int.TryParse(frames, NumberStyles.None, CultureInfo.InvariantCulture, out int n))
        {
            throw Refusal.WrongCall($"--kept: '{text}' cannot be read: write frames kept of frames shot, such as \"5 of 25\".");
        }
        return n is >= 1 and <= 100_000 && k <= n
            ? KeeperTrial.Of(k, n)
            : throw Refusal.WrongCall($"--kept: of {n} frames {k} cannot be kept.");
    }

    private (SpeedBand Peak, HowKnown How) ReadPeak(Option<string?> given)
    {
        Speed speed = written.Struct<Speed>(given, Speed.TryParse, s => s.MetresPerSecond <= 60, "write a speed up to 60 m/s, such as 3m/s")!.Value;
        bool needsSite = given == PlanOptions.Wind;
        if (written.Has(PlanOptions.Site) && !needsSite)
            assumed.Add("--site plays no part: what was measured at the leaves needs no site.");
        if (written.Has(PlanOptions.LeafSize) && given == PlanOptions.LeafSpeed)
            throw Refusal.WrongCall("--leaf-size belongs to a wind: a speed that was measured needs none.");
        if (given == PlanOptions.LeafSpeed)
            return (new SpeedBand(speed, speed, speed), HowKnown.Measured);
        Length leaf = written.Struct<Length>(PlanOptions.LeafSize, Length.TryParse, l => l.Millimetres is >= 1 and <= 1000, "a leaf is 1 mm to 1 m") ?? UsualLeaf;
        if (!written.Has(PlanOptions.LeafSize))
            assumed.Add("Leaves are taken as 5 cm; give --leaf-size where they are not.");
        SpeedBand band = needsSite ? LeafSpeed.From(WindAtLeaf.From(speed, ReadSite()), leaf) : LeafSpeed.From(speed, leaf);
        // The law gives the root mean square; a swing peaks at the root of two of it.
        return (SpeedBand.WithinFactor(Speed.FromMetresPerSecond(band.Best.MetresPerSecond * Math.Sqrt(2)), band.Factor), HowKnown.RuleOfThumb);
    }

    private WindSite ReadSite()
    {
        if (!written.Has(PlanOptions.Site))
        {
            assumed.Add("The leaves are taken to stand in the open, where the wind is strongest; give --site where they do not.");
            return WindSite.Open;
        }
        string word = call.GetValue(PlanOptions.Site)!.Trim();
        return word.ToLowerInvariant() switch
        {
            "open" => WindSite.Open,
            "stand" => WindSite.Stand,
            "floor" => WindSite.Floor,
            _ => throw Refusal.WrongCall($"--site: '{word}' is not known here: write open, stand or floor."),
        };
    }

    private SubjectDistance? ReadDistance(Option<string?> option) =>
        written.Class<SubjectDistance>(option, SubjectDistance.TryParse, d => d.IsInfinite || d.Metres <= 1e6, "write a distance up to 1000 km, or inf");

    private Lens ReadLens(Option asks) => written.Struct<Length>(PlanOptions.Focal, Length.TryParse, l => l.Millimetres is >= 1 and <= 10_000, "a focal length lies between 1 mm and 10 m") is { } focal
        ? Lens.Of(focal)
        : throw Refusal.WrongCall($"{asks.Name} needs --focal, such as --focal 24mm.");

    private static void CheckBeyond(Lens lens, SubjectDistance distance, Option option)
    {
        if (distance.Millimetres <= lens.FocalLength.Millimetres)
            throw Refusal.WrongCall($"{option.Name}: {distance.ToDisplay()} lies inside the focal length of {lens.FocalLength.ToDisplay()}: no lens focuses there.");
    }

    private FrameFormat ReadFormat()
    {
        if (written.Class<FrameFormat>(PlanOptions.Format, FrameFormat.TryParse, IsFormat, FormatRange) is { } given)
            return given;
        const string Words = "A frame of 36 × 24 mm is assumed; give yours with --format.";
        if (!assumed.Contains(Words))
            assumed.Add(Words);
        return FrameFormat.FullFrame;
    }

    private Angle? ReadAcuity() => written.Struct<Angle>(PlanOptions.Acuity, WrittenOptions.TryArcminutes, a => a.Arcminutes is >= 0.1 and <= 60, "an eye tells 0.1 to 60 minutes of arc apart, write such as 1.43");
}
