using MathNet.Numerics;

namespace Leafstop.Core.Motion;

/// <summary>How many frames until one is good, when every frame is a fresh try.</summary>
/// <remarks>Worked out from the binomial law (checked by W-25). Frames of one gust or one lull are not fresh tries: <see cref="LullRhythm"/>
/// counts those.</remarks>
public static class FrameOdds
{
    // A count that misses a whole number by less than this is that number: 1 − 0.05^(1/10) asks for ten frames, not eleven.
    private const double CountHair = 1e-9;

    /// <summary>The chance that at least one of some frames is good: 1 − (1−p)ⁿ.</summary>
    /// <param name="perFrame">Chance p of one frame.</param>
    /// <param name="frames">Number n of frames, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of frames.</exception>
    public static Chance AtLeastOne(Chance perFrame, int frames)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        return frames == 0 ? default : Chance.Of(perFrame.Share < 1 ? -Missed(perFrame, frames) : 1);
    }

    /// <summary>The fewest frames after which at least one is good with the chance asked for: ln(1−sure)/ln(1−p), rounded up.</summary>
    /// <param name="perFrame">Chance p of one frame.</param>
    /// <param name="sure">How sure to be, below 1; see <see cref="Chance.UsuallySure"/>.</param>
    /// <returns>The number of frames; null when no number is enough (p is none) or it passes two thousand million.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Certainty was asked for.</exception>
    public static int? FramesFor(Chance perFrame, Chance sure)
    {
        ThrowIfCertain(sure);
        if (sure.Share == 0) return 0;
        if (perFrame.Share == 1) return 1;
        return perFrame.Share == 0 ? null : Whole(SpecialFunctions.Log1p(-sure.Share) / SpecialFunctions.Log1p(-perFrame.Share));
    }

    /// <summary>The chance that one frame has every area good at once, areas moving independently: the product.</summary>
    /// <param name="areas">The chance of each area, for example four corners with leaves.</param>
    /// <exception cref="ArgumentException">No area.</exception>
    public static Chance AllInOneFrame(IReadOnlyCollection<Chance> areas)
    {
        ThrowIfNone(areas);
        return Chance.Of(areas.Aggregate(1.0, (all, area) => all * area.Share));
    }

    /// <summary>The chance that every area is good in at least one of some frames, so that a blend has them all.</summary>
    /// <param name="areas">The chance of each area in one frame, areas moving independently.</param>
    /// <param name="frames">Number of frames, 0 or more.</param>
    /// <exception cref="ArgumentException">No area.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of frames.</exception>
    public static Chance AllInABlend(IReadOnlyCollection<Chance> areas, int frames)
    {
        ThrowIfNone(areas);
        return Chance.Of(areas.Aggregate(1.0, (all, area) => all * AtLeastOne(area, frames).Share));
    }

    /// <summary>The fewest frames from which a blend of every area can be made with the chance asked for.</summary>
    /// <returns>The number of frames; null when no number is enough or it passes a thousand million.</returns>
    /// <exception cref="ArgumentException">No area.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Certainty was asked for.</exception>
    public static int? BlendFramesFor(IReadOnlyCollection<Chance> areas, Chance sure)
    {
        ThrowIfCertain(sure);
        ThrowIfNone(areas);
        bool Enough(int frames) => AllInABlend(areas, frames).Share >= sure.Share - 1e-12;
        int enough = 1;
        while (!Enough(enough))
        {
            if (enough > 1_000_000_000 / 2) return null;
            enough *= 2;
        }
        int tooFew = enough / 2;
        while (enough - tooFew > 1)
        {
            int middle = tooFew + (enough - tooFew) / 2;
            if (Enough(middle)) enough = middle;
            else tooFew = middle;
        }
        return enough;
    }

    // (1−p)ⁿ − 1, exact also where p is very small.
    private static double Missed(Chance perFrame, int frames) => Expm1(frames * SpecialFunctions.Log1p(-perFrame.Share));

    // e^x − 1 with all its digits near zero. The numerics library's own (5.0.0) is off by up to 5e-8 of the value there.
    private static double Expm1(double x) => Math.Abs(x) < 1 ? 2 * Math.Sinh(x / 2) * Math.Exp(x / 2) : Math.Exp(x) - 1;

    private static int? Whole(double count) => count < int.MaxValue ? (int)Math.Ceiling(count - CountHair) : null;

    private static void ThrowIfCertain(Chance sure)
    {
        if (sure.Share == 1)
            throw new ArgumentOutOfRangeException(nameof(sure), sure.Share, "No number of frames makes it certain: ask for less than 100 %.");
    }

    private static void ThrowIfNone(IReadOnlyCollection<Chance> areas)
    {
        if (areas.Count == 0)
            throw new ArgumentException("At least one area is needed.", nameof(areas));
    }
}
