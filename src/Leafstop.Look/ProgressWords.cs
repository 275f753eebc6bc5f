using System.Globalization;

namespace Leafstop.Look;

/// <summary>How far a job over many frames has come, in words.</summary>
public static class ProgressWords
{
    // An estimate from fewer frames, or from less time, jumps about.
    private const int LeastFrames = 2;
    private const double LeastSeconds = 1;

    /// <summary>"frame 7 of 18, BENCH_0007".</summary>
    /// <param name="done">Frames dealt with.</param>
    /// <param name="total">Frames in all.</param>
    /// <param name="file">The last of them; its name alone is told, without what comes after the dot.</param>
    public static string Frame(int done, int total, string file)
    {
        string name = OneLine.Of(Path.GetFileNameWithoutExtension(file));
        string frame = string.Create(CultureInfo.InvariantCulture, $"frame {done} of {total}");
        return name.Length > 0 ? $"{frame}, {name}" : frame;
    }

    /// <summary>Seconds that are left at the pace so far; null as long as that would be guessing.</summary>
    /// <param name="done">Frames dealt with.</param>
    /// <param name="total">Frames in all.</param>
    /// <param name="seconds">How long that took.</param>
    public static double? SecondsLeft(int done, int total, double seconds) =>
        done < LeastFrames || done >= total || seconds < LeastSeconds ? null : seconds / done * (total - done);

    /// <summary>"about 40 s left", "about 2 min left".</summary>
    public static string Left(double seconds) => seconds < 90
        ? string.Create(CultureInfo.InvariantCulture, $"about {Math.Ceiling(seconds):0} s left")
        : string.Create(CultureInfo.InvariantCulture, $"about {Math.Round(seconds / 60):0} min left");
}
