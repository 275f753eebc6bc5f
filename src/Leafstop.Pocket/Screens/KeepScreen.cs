using System.Text;
using Leafstop.Core.Motion;

namespace Leafstop.Pocket.Screens;

/// <summary>Keep or no, frame by frame, with the odds as they stand.</summary>
internal static class KeepScreen
{
    public static string Of(PocketPage page)
    {
        string verdict = "Keep or no?";
        StringBuilder told = new();
        if (page.State.Trial.Length == 0)
        {
            told.Append("<p class=\"line\">Shoot 10 to 25 frames, look at the corners, tap one for each. Frames of one gust are one try: three to five a lull, then wait.</p>");
        }
        else
        {
            KeeperTrial trial = page.Trial;
            string sentence = trial.ToSentence(Chance.UsuallySure);
            verdict = $"{trial.Kept} of {trial.Frames} kept.";
            string odds = sentence[(sentence.IndexOf(": ", StringComparison.Ordinal) + 2)..];
            told.Append($"<p class=\"line\">{char.ToUpperInvariant(odds[0])}{Html.Text(odds[1..])} {GapWords.How("w", "worked out")}</p>");
            if (trial.Best is { Share: < 1 } best)
            {
                var blend = BlendOdds.CompareAlike(best, 4, Chance.UsuallySure);
                told.Append($"<p class=\"line\">Four such corners at once: {Frames(blend.SingleFrames)} for one frame, {Frames(blend.BlendFrames)} if you may blend.</p>");
            }
            told.Append("<p class=\"sure\">Frames of one gust are one try: three to five a lull, then wait.</p>");
        }
        string set = $"<div class=\"keeps\">{Html.Button("trial:k", "", "Keep")}{Html.Button("trial:n", "", "No")}</div>";
        return Parts.Inner("Keep or no", verdict, told.ToString(), set, ("go:leaves", "Back"), ("trial:back", "Take back"), ("trial:new", "New trial"), ("go:gap", "Gap"));
    }

    private static string Frames(int? frames) => frames is { } n ? $"{n} frames" : "more than can be counted";
}
