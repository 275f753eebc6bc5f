using System.Globalization;
using Leafstop.Core.Card;
using Leafstop.Core.Motion;
using Leafstop.Core.Planning;
using Leafstop.Pocket.Data;
using Leafstop.Pocket.Screens;

namespace Leafstop.Pocket;

/// <summary>What the buttons do.</summary>
internal static class PocketActs
{
    /// <summary>Letters of a remark: what was pasted may be quoted in it.</summary>
    private const int MostRemark = 140;

    /// <summary>Letters of a refused text that are given back to be mended: a few times what a card holds.</summary>
    private const int MostDraft = 4000;

    public static void Do(PocketPage page, string act, string value, Moment now)
    {
        string[] words = act.Split(':');
        PocketState s = page.State;
        string first = words.Length > 1 ? words[1] : "", second = words.Length > 2 ? words[2] : "";
        switch (words[0])
        {
            case "go":
                s.Screen = act[3..];
                break;
            case "step" when Dials.Named(first) is { } dial:
                Forget(s);
                dial.Step(page, second == "-1" ? -1 : 1);
                break;
            case "set" when Dials.Named(first) is { } dial && double.TryParse(second, CultureInfo.InvariantCulture, out double picked):
                Forget(s);
                dial.Set(page, picked);
                s.Screen = PickScreen.After(dial, words.Length > 3 ? words[3] : "gap");
                break;
            case "polariser":
                s.Polariser = !s.Polariser;
                break;
            case "foam":
                s.Foam = s.Foam switch { null => 2.7, 2.7 => 4.7, _ => null };
                break;
            case "try" when int.TryParse(first, CultureInfo.InvariantCulture, out int row):
                Try(page, row);
                break;
            case "back":
                TakeBack(s);
                break;
            case "use" when double.TryParse(first, CultureInfo.InvariantCulture, out double shutter):
                Forget(s);
                s.Shutter = shutter;
                s.Screen = "gap";
                break;
            case "open" when double.TryParse(first, CultureInfo.InvariantCulture, out double aperture):
                Forget(s);
                s.Aperture = aperture;
                break;
            case "water":
                s.WaterOn = !s.WaterOn;
                break;
            case "depth":
                s.DepthOn = !s.DepthOn;
                break;
            case "smear" when double.TryParse(first, CultureInfo.InvariantCulture, out double smear):
                (s.Leaves, s.Smear, s.SmearShutter) = ("trial", smear, s.Shutter);
                break;
            case "wind" when int.TryParse(first, CultureInfo.InvariantCulture, out int force) && force is >= 0 and <= 6:
                (s.Leaves, s.Force) = ("wind", force);
                break;
            case "site":
                s.Site = s.Site switch { WindSite.Open => WindSite.Stand, WindSite.Stand => WindSite.Floor, _ => WindSite.Open };
                break;
            case "leaves":
                s.Leaves = "";
                break;
            case "trial":
                s.Trial = first switch
                {
                    "k" or "n" => s.Trial + first,
                    "back" => s.Trial.Length > 0 ? s.Trial[..^1] : "",
                    _ => "",
                };
                break;
            case "tick":
                if (!s.Ticks.Remove(first))
                    s.Ticks.Add(first);
                break;
            case "unticked":
                s.Ticks.Clear();
                break;
            case "note":
                Note(page, now);
                break;
            case "unnote":
                s.Readings.Clear();
                break;
            case "leave":
                s.LeaveAt = null;
                break;
            case "place" when int.TryParse(first, CultureInfo.InvariantCulture, out int place):
                s.Place = place >= 0 && place < page.Data.Places.Count ? page.Data.Places[place].Name : "";
                s.Screen = "place";
                break;
            case "light" when double.TryParse(first, CultureInfo.InvariantCulture, out double light):
                Forget(s);
                s.Light = Math.Clamp(light, -20, 30);
                s.Polariser = second == "p";
                s.Screen = "gap";
                break;
            case "camera" when int.TryParse(first, CultureInfo.InvariantCulture, out int camera) && page.Cameras.ElementAtOrDefault(camera) is { } chosen:
                // The light stays what it is: another base ISO sees another gap.
                Forget(s);
                (s.Camera, s.Limits) = (chosen.Name, "");
                break;
            case "limits" when page.Camera is { } of && page.Limits is { } at:
                s.Limits = of.Limits[(of.Limits.TakeWhile(l => l != at).Count() + 1) % of.Limits.Count].Key;
                break;
            case "print" when first == "asked":
                (s.PrintWidth, s.PrintDistance) = (null, null);
                break;
            case "card":
                TakeOver(page, value);
                break;
            case "uncard":
                Forget(s);
                (s.Card, s.Limits) = ("", "");
                break;
            case "own" when first == "none":
                (s.OwnClean, s.OwnStretch) = (null, null);
                break;
            case "frames":
                s.Frames = 1;
                break;
            case "hand":
                s.LeftHand = !s.LeftHand;
                break;
            case "theme":
                s.Sun = !s.Sun;
                break;
            case "dim":
                s.Dim = !s.Dim;
                break;
            case "vibrate":
                s.Vibrate = !s.Vibrate;
                break;
            default:
                break;
        }
    }

    /// <summary>A new setting keeps what was tried.</summary>
    private static void Forget(PocketState s) => (s.Before, s.Tried, s.TriedCost) = (null, "", "");

    private static void Try(PocketPage page, int index)
    {
        if (page.Plan is not { } plan || index < 0 || index >= plan.GiveUp.Length)
            return;
        GiveUpRow row = plan.GiveUp[index];
        PocketState s = page.State;
        if (row.What == GiveUpKind.TwoFrames)
        {
            s.SecondShutter = plan.TwoFrames!.Leaves.Shutter.Seconds;
            s.Screen = "pair";
            return;
        }
        s.Screen = "gap";
        // What was there first comes back, however many rows were tried on the way.
        s.Before ??= new PocketBefore(s.Aperture, s.Shutter, s.Light, s.Polariser, s.PrintWidth, s.PrintDistance, s.Frames);
        (s.Tried, s.TriedCost) = (GiveUpRows.Short(row), row.Cost);
        (s.Aperture, s.Shutter, s.Light, s.Frames) = (row.After.Aperture.Ratio, row.After.Shutter.Seconds, row.After.Metered.Value, row.After.FramesAveraged);
        s.Polariser = !row.After.FiltersOn.IsEmpty;
        if (row.What == GiveUpKind.SmallerPrint && row.After.Print is { } print)
            (s.PrintWidth, s.PrintDistance) = (print.WidthMm, print.ViewingDistanceMm);
    }

    private static void TakeOver(PocketPage page, string text)
    {
        if (!CardText.TryParse(text, out CardText? card, out string why))
        {
            page.Remark = text.Trim().Length == 0 ? "Paste the text of the card's code first." : why.Length > MostRemark ? $"{why[..MostRemark]}…" : why;
            page.Draft = text.Length > MostDraft ? "" : text;
            return;
        }
        PocketState s = page.State;
        Forget(s);
        (s.Card, s.Camera, s.Limits) = (card!.ToString(), CardEntry.NameOf(card), "");
    }

    private static void TakeBack(PocketState s)
    {
        if (s.Before is not { } b)
            return;
        (s.Aperture, s.Shutter, s.Light, s.Polariser, s.PrintWidth, s.PrintDistance, s.Frames) = (b.Aperture, b.Shutter, b.Light ?? s.Light, b.Polariser, b.PrintWidth, b.PrintDistance, b.Frames);
        Forget(s);
    }

    private static void Note(PocketPage page, Moment now)
    {
        List<(double At, double Ev)> readings = page.State.Readings;
        // A second reading of the same moment replaces the first; so does one after the clock was set back, which makes the earlier ones worthless.
        if (readings.Count > 0 && now.Milliseconds - readings[^1].At < LightTrend.ShortestApart.TotalMilliseconds)
        {
            page.Remark = now.Milliseconds < readings[^1].At ? "The clock was set back: what was noted later than now is gone." : "Noted in place of the last one: they lay less than half a minute apart.";
            readings.RemoveAll(r => now.Milliseconds - r.At < LightTrend.ShortestApart.TotalMilliseconds);
        }
        readings.Add((now.Milliseconds, page.State.Light!.Value));
        if (readings.Count > PocketPage.MostReadings)
            readings.RemoveAt(0);
    }
}
