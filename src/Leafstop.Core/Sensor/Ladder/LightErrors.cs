using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>How far each level's light lies from what its settings promise.</summary>
internal static class LightErrors
{
    /// <summary>From here on a level's light counts as different, stops.</summary>
    public const double MostStops = 0.1;

    /// <summary>A fitted gain corrects the ISO label only where it contradicts it by more than this, stops.</summary>
    private const double LeastLabelErrorStops = 0.08;

    /// <summary>Sets <see cref="LevelDraft.LightErrorStops"/> and <see cref="LevelDraft.FrameLightErrors"/> of every level that can be compared.</summary>
    /// <remarks>Error = log2(measured / expected from settings) relative to the median level of its ladder: a lamp may have been turned between two. A level on neither is held against the nearer. Marks or literal numbers: whichever fits the measured light
    /// better over the whole ladder. Without stated times the ladder itself is what was promised.</remarks>
    public static void Set(ImmutableArray<LevelDraft> levels, MeasuredLight measured, bool fromSettings)
    {
        LevelDraft[] known = [.. levels.Where(l => measured.Of(l.Shots) is not null)];
        if (known.Length < 2) return;
        Dictionary<LevelDraft, double> label = LabelErrors(known);
        if (fromSettings && known.All(l => l.Shots.ShutterSeconds is not null))
        {
            MarkReading reading = MarkReading.All.MinBy(r => Ladders(l => Raw(l, r)).Sum(Spread))!;
            double[] middles = [.. Ladders(l => Raw(l, reading)).Select(Median.Of)];
            foreach (LevelDraft level in known)
            {
                double raw = Raw(level, reading);
                Tell(level, level.Ladder == LadderKind.SameLight && middles.Length > 1 ? raw - middles[1] : level.Ladder == LadderKind.Metered || middles.Length == 1 ? raw - middles[0] : middles.Select(m => raw - m).MinBy(Math.Abs));
            }

            // Metered, then same light, where there are two; else all levels are one.
            double[][] Ladders(Func<LevelDraft, double> raw)
            {
                double[][] two = [.. ((LadderKind[])[LadderKind.Metered, LadderKind.SameLight]).Select(kind => known.Where(l => l.Ladder == kind).Select(raw).ToArray())];
                return two.All(l => l.Length > 0) ? two : [[.. known.Select(raw)]];
            }

            double Raw(LevelDraft l, MarkReading r) => measured.Of(l.Shots)!.Value - r.Speed(l.Shots) - r.Light(l.Shots)!.Value + label[l];
        }
        else
        {
            foreach (var ladder in known.Where(l => l.Ladder != LadderKind.None).GroupBy(l => l.Ladder))
                Relative([.. ladder], l => measured.Of(l.Shots)!.Value - (ladder.Key == LadderKind.SameLight ? Math.Log2(l.Shots.Iso) : 0) + label[l]);
        }

        void Relative(LevelDraft[] ladder, Func<LevelDraft, double> error)
        {
            double middle = Median.Of(ladder.Select(error));
            foreach (LevelDraft level in ladder) Tell(level, error(level) - middle);
        }

        void Tell(LevelDraft level, double error)
        {
            double own = measured.Of(level.Shots)!.Value;
            level.LightErrorStops = error;
            level.FrameLightErrors = level.Shots.Files
                .Where(f => measured.OfFrame(f) is not null)
                .ToImmutableDictionary(f => f, f => error + measured.OfFrame(f)!.Value - own);
        }
    }

    /// <summary>Where a fitted gain says that an ISO label is wrong, by how many stops: electrons tell the light, labels do not.</summary>
    private static Dictionary<LevelDraft, double> LabelErrors(LevelDraft[] levels)
    {
        double?[] products = [.. levels.Select(l => l.IsUsable && l.Fit.Gain is { RelativeHalfWidth: < 0.03 } g ? Math.Log2(g.Value * l.Shots.Iso) : (double?)null)];
        double[] known = [.. products.OfType<double>()];
        double middle = known.Length == 0 ? 0 : Median.Of(known);
        return levels.Zip(products).ToDictionary(
            p => p.First,
            p => p.Second is { } product && Math.Abs(product - middle) > LeastLabelErrorStops ? product - middle : 0);
    }

    private static double Spread(double[] errors)
    {
        double middle = Median.Of(errors);
        return errors.Sum(e => Math.Abs(e - middle));
    }
}
