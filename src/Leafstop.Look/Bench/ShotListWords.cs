using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Look.Bench;

/// <summary>The words of the shot list for a bench test.</summary>
public static class ShotListWords
{
    /// <summary>The lamps: the word of an option, the lamp, and how it is told.</summary>
    public static IReadOnlyList<(string Word, Lamp Lamp, string Told)> Lamps { get; } =
    [
        ("mains50", Lamp.Mains50, "a lamp on 50 Hz mains"),
        ("mains60", Lamp.Mains60, "a lamp on 60 Hz mains"),
        ("led-dc", Lamp.LedDc, "LEDs on direct current"),
    ];

    /// <summary>How it is known.</summary>
    public const string HowKnown = "How it is known: the swing is worked out for a lamp that flickers fully, the rest is common practice.";

    /// <summary>"Bench test under a lamp on 50 Hz mains: 44 raw frames at f/8."</summary>
    public static string Heading(ShotList list, string lamp) => $"Bench test under {lamp}: {list.TotalFrames} raw frames at {list.Aperture.ToDisplay()}.";

    /// <summary>By how much the light of a frame may swing with the lamp; "-" where it does not.</summary>
    public static string Swing(ShotListLevel level) => level.RippleShare < 0.0005 ? "-" : $"{Figures.Fixed(level.RippleShare * 100, 1)} %";

    /// <summary>What to mind, a sentence or three a line.</summary>
    /// <param name="next">What to do with the frames: "leafstop measure DIR".</param>
    public static IReadOnlyList<string> Advice(string next) =>
    [
        "Scene: something black in shadow, a smooth mid-tone, moss or bark, a white that just does not clip.",
        "Let the lamp warm up for 15 minutes and keep daylight out. Tripod, 2 s delay, manual focus, manual white balance.",
        "Raw in full bit depth, stabilisation off, long-exposure noise reduction off, the same shutter type throughout.",
        $"Cap frames: lens cap on, same ISO and shutter. Then: {next}, before you take the scene down.",
    ];

    /// <summary>The levels that are meant when none are named.</summary>
    public static IReadOnlyList<Iso> UsualLevels => [.. ShotList.UsualLevels.Select(Iso.FromSpeed)];
}
