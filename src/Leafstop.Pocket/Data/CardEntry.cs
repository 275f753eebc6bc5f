using System.Globalization;
using Leafstop.Core.Card;

namespace Leafstop.Pocket.Data;

/// <summary>The camera that a pocket card carries.</summary>
internal static class CardEntry
{
    /// <summary>Its name among the cameras of the page; a camera of the same name may have been written in.</summary>
    public static string NameOf(CardText card) => $"{card.Name}, from its card";

    /// <summary>The camera with the limits of the card; null when no card was taken over, or its text cannot be read.</summary>
    public static PocketCamera? Camera(string text)
    {
        if (text.Length == 0 || !CardText.TryParse(text, out CardText? card, out _))
            return null;
        string judged = card!.JudgedOn is { } day ? day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture) : "";
        PocketLimits? found = card.WorkedOutFor(card.Print) is { MeasuredTo: not null } worked ? new PocketLimits(worked.Limits, judged, worked.Remark) { MeasuredTo = worked.MeasuredTo }
            : card.LimitsFor(card.Print) is { } limits ? new PocketLimits(limits, judged, "") : null;
        return new PocketCamera(NameOf(card), card.BaseIso, null, found is null ? [] : [found]);
    }
}
