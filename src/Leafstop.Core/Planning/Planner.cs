using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>From a scene to its plan. Deterministic: the same scene gives the same plan.</summary>
public static class Planner
{
    /// <summary>The widest gap that is planned, stops either way: thirty stops are a billion times the light.</summary>
    public static readonly Stops WidestGap = Stops.Of(30);

    /// <summary>Plans a scene.</summary>
    /// <param name="scene">The scene.</param>
    /// <exception cref="ArgumentOutOfRangeException">The gap is wider than any camera could close; the message is for the person.</exception>
    public static ExposurePlan Plan(Scene scene)
    {
        ExposurePlan brief = Brief(scene);
        TwoFrameRecipe? two = Recipe(scene);
        return brief with
        {
            GiveUp = GiveUpTable.Of(scene, brief.Answer, two),
            TwoFrames = two,
            Cautions = CautionList.Of(scene, brief.Answer, two),
        };
    }

    /// <summary>The answer alone, for a page that answers every key: what can be given up, two frames and cautions are left empty.</summary>
    /// <param name="scene">The scene.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="Plan"/>.</exception>
    public static ExposurePlan Brief(Scene scene)
    {
        Checked(scene);
        var answer = GapAnswer.Of(scene);
        if (Math.Abs(answer.Gap.Value) > WidestGap.Value)
        {
            throw new ArgumentOutOfRangeException(
                nameof(scene), answer.Gap.Value, FormattableString.Invariant($"This exposure and this light lie {Math.Abs(answer.Gap.Value):0} stops apart: look at the meter reading again."));
        }
        return new ExposurePlan
        {
            Scene = scene,
            Answer = answer,
            Iso = DialledIso.Of(answer.Iso),
            Limits = GapAnswer.LimitsAsked(scene),
            LimitRefusal = scene.LimitsAsked?.Refusal,
            Print = scene.PrintAsked,
            Foam = scene.FoamOverMidGrey is { } foam ? HighlightRoom.Of(foam, answer.Iso, answer.Iso, scene.ClipOverMidGrey) : null,
            GiveUp = [],
            Cautions = [],
        };
    }

    /// <summary>Finds the exposure that the wishes ask for, among the marks in thirds: depth chooses the aperture, water or else leaves the shutter.</summary>
    /// <remarks>Of the pairs that hold the depth and give the water, those that hold the leaves too come first; of these the shutter nearest to the middle of what the water
    /// wants, then the lowest ISO.</remarks>
    /// <param name="scene">The scene; what is not to be found stays as it is.</param>
    /// <param name="findAperture">True to find the aperture.</param>
    /// <param name="findShutter">True to find the shutter.</param>
    /// <returns>The scene with its exposure; null when no pair of marks does what is asked.</returns>
    public static Scene? Choose(Scene scene, bool findAperture, bool findShutter)
    {
        FNumber[] apertures = findAperture ? [.. Marks.FNumbers(DialStep.Thirds).All.Select(m => FNumber.FromRatio(m.Exact))] : [scene.Aperture];
        ShutterTime[] shutters = findShutter ? [.. Marks.Shutters(DialStep.Thirds).All.Select(m => ShutterTime.FromSeconds(m.Exact))] : [scene.Shutter];
        double? middle = scene.Water?.Wanted?.Middle.Seconds;
        Candidate? best = Sweep(scene, apertures, shutters)
            .Where(c => (!findAperture || c.HoldsDepth != false) && (!findShutter || c.WaterAsAsked != false))
            // Water that flows and leaves that stand may want two frames: the water's taste is kept then.
            .Where(c => !findShutter || c.HoldsLeaves != false || scene.Water is not null)
            .OrderBy(c => findShutter && c.HoldsLeaves == false)
            .ThenBy(c => findShutter && middle is { } m ? Math.Round(Math.Abs(Math.Log2(c.Shutter.Seconds / m)), 9) : 0)
            .ThenBy(c => c.Answer.Iso)
            .FirstOrDefault();
        return best is null ? null : scene with { Aperture = best.Aperture, Shutter = best.Shutter };
    }

    /// <summary>Every pair of an aperture and a shutter in the light of a scene: the bare numbers, and whether depth and leaves hold.</summary>
    /// <remarks>Geometry only: the exact transfer of defocus and diffraction is not searched here.</remarks>
    /// <param name="scene">The scene; its own aperture and shutter play no part.</param>
    /// <param name="apertures">Literal f-numbers.</param>
    /// <param name="shutters">Literal times.</param>
    public static ImmutableArray<Candidate> Sweep(Scene scene, IReadOnlyList<FNumber> apertures, IReadOnlyList<ShutterTime> shutters)
    {
        Checked(scene);
        NoiseLimits? limits = GapAnswer.LimitsAsked(scene);
        Stops used = GapAnswer.StopsUsed(scene);
        PrintCondition? print = scene.PrintAsked;
        bool?[] depth = [.. apertures.Select(a => print is null ? null : scene.Depth?.Holds(a, print, scene.WidthKept))];
        ShutterTime? holding = print is null ? null : scene.Leaves?.Holding(print, scene.WidthKept).Exact;
        bool hasLeaves = print is not null && scene.Leaves is not null;
        ImmutableArray<Candidate>.Builder all = ImmutableArray.CreateBuilder<Candidate>(apertures.Count * shutters.Count);
        for (int a = 0; a < apertures.Count; a++)
        {
            foreach (ShutterTime shutter in shutters)
            {
                bool? leaves = hasLeaves ? holding is null || shutter.Seconds <= holding.Seconds * (1 + Stops.Hair) : null;
                all.Add(new Candidate(apertures[a], shutter, GapAnswer.Of(scene, apertures[a], shutter, limits, used), depth[a], leaves, scene.Water?.Gives(shutter)));
            }
        }
        return all.MoveToImmutable();
    }

    /// <summary>The shutters that water and leaves want; null unless both are asked and both have one.</summary>
    private static TwoFrameRecipe? Recipe(Scene scene)
    {
        if (scene.Water is not { } water || scene.Leaves is not { } leaves || scene.PrintAsked is not { } print
            || leaves.Holding(print, scene.WidthKept).Mark() is not { } still)
        {
            return null;
        }
        ShutterTime flowing = water.Wanted is { } band
            ? water.Gives(scene.Shutter) == true ? scene.Shutter : band.Middle.NearestMark()
            : scene.Shutter;
        return flowing.Seconds > still.Seconds * (1 + Stops.Hair) ? TwoFrameRecipe.Of(scene, flowing, still) : null;
    }

    private static void Checked(Scene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        // Refuses a lift, a crop and a count of frames that it cannot use.
        _ = GapAnswer.StopsUsed(scene);
    }
}

/// <summary>One pair of aperture and shutter in the light of a scene.</summary>
/// <param name="Aperture">Aperture.</param>
/// <param name="Shutter">Shutter.</param>
/// <param name="Answer">Gap, ISO, spare, verdict.</param>
/// <param name="HoldsDepth">Whether the depth that is asked holds by geometry; null when none is asked.</param>
/// <param name="HoldsLeaves">Whether the leaves are held at the peak of their swing; null when none are asked.</param>
/// <param name="WaterAsAsked">Whether the water looks as asked; null when nothing is asked of it.</param>
public sealed record Candidate(FNumber Aperture, ShutterTime Shutter, GapAnswer Answer, bool? HoldsDepth, bool? HoldsLeaves, bool? WaterAsAsked);
