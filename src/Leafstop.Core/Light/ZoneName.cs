using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Leafstop.Core.Light;

/// <summary>Time zones as people name them: an IANA name such as Europe/London, or a fixed offset such as UTC+02:00. The zone rules are those built into NodaTime.</summary>
public static class ZoneName
{
    /// <summary>Reads a zone.</summary>
    /// <param name="text">What was written; case does not matter.</param>
    /// <param name="zone">The zone; UTC when it cannot be read.</param>
    /// <param name="why">A sentence when it cannot be read; else empty.</param>
    public static bool TryParse(string? text, out DateTimeZone zone, out string why)
    {
        zone = DateTimeZone.Utc;
        why = "";
        string bare = (text ?? "").Trim().Replace('\u2212', '-');
        if (bare.Equals("UTC", StringComparison.OrdinalIgnoreCase) || bare.Equals("Z", StringComparison.OrdinalIgnoreCase))
            return true;
        string offset = bare.StartsWith("UTC", StringComparison.OrdinalIgnoreCase) ? bare[3..] : bare;
        if (offset.Length > 0 && offset[0] is '+' or '-')
        {
            if (TryOffset(offset, out int minutes))
            {
                zone = DateTimeZone.ForOffset(Offset.FromSeconds(minutes * 60));
                return true;
            }
            why = $"'{bare}' is no offset from UTC: write it such as UTC+02:00, at most 18 hours.";
            return false;
        }
        IDateTimeZoneProvider zones = DateTimeZoneProviders.Tzdb;
        string? id = zones.Ids.FirstOrDefault(i => i.Equals(bare, StringComparison.OrdinalIgnoreCase));
        if (id is not null)
        {
            zone = zones[id];
            return true;
        }
        string[] near = bare.Length < 3 ? [] : [.. zones.Ids.Where(i => i.Contains(bare.Replace(' ', '_'), StringComparison.OrdinalIgnoreCase)).Take(3)];
        why = bare.Length == 0
            ? "A time zone is missing: write its name such as Europe/London, or an offset such as UTC+02:00."
            : near.Length > 0
                ? $"There is no time zone '{bare}'. There is {string.Join(", ", near)}."
                : $"There is no time zone '{bare}': write its name such as Europe/London, or an offset such as UTC+02:00.";
        return false;
    }

    /// <summary>A moment by the clock of a zone as ISO 8601 with its offset, to the second: 2026-10-17T08:40:00+01:00.</summary>
    /// <remarks>Before zones were agreed on, clocks ran off by odd seconds, which ISO 8601 has no room for: the offset is then rounded to the minute and the moment stays exact.</remarks>
    public static string Write(Instant when, DateTimeZone zone)
    {
        // Half a second up, so that the moment written is the nearest second.
        Instant rounded = Instant.FromUnixTimeSeconds((when + Duration.FromMilliseconds(500)).ToUnixTimeSeconds());
        int seconds = zone.GetUtcOffset(rounded).Seconds;
        return Pattern.Format(rounded.WithOffset(Offset.FromSeconds((int)Math.Round(seconds / 60.0) * 60)));
    }

    private static readonly OffsetDateTimePattern Pattern = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm':'sso<+HH:mm>");

    // +2, +02, +0230, +02:30.
    private static bool TryOffset(string text, out int minutes)
    {
        string digits = text[1..];
        string[] parts = digits.Contains(':', StringComparison.Ordinal) ? digits.Split(':') : digits.Length == 4 ? [digits[..2], digits[2..]] : [digits, "0"];
        minutes = 0;
        if (parts.Length != 2 || parts[0].Length is 0 or > 2
            || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int hours)
            || !int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int rest)
            || rest > 59 || (hours * 60) + rest > 18 * 60)
            return false;
        minutes = ((hours * 60) + rest) * (text[0] == '-' ? -1 : 1);
        return true;
    }
}
