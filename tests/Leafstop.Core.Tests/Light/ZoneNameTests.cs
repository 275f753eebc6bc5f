using Leafstop.Core.Light;
using NodaTime;

namespace Leafstop.Core.Tests.Light;

public class ZoneNameTests
{
    // Derived: offsets as written; IANA rules for London in October (summer time until the 25th).
    [Theory]
    [InlineData("Europe/London", 60)]
    [InlineData("europe/london", 60)]
    [InlineData("UTC", 0)]
    [InlineData("UTC+02:00", 120)]
    [InlineData("utc-7", -420)]
    [InlineData("+0530", 330)]
    [InlineData("UTC\u221203:30", -210)]
    public void A_zone_is_read_as_people_name_it(string text, int minutes)
    {
        Assert.True(ZoneName.TryParse(text, out DateTimeZone zone, out string why), why);
        Assert.Equal(minutes * 60, zone.GetUtcOffset(Instant.FromUtc(2026, 10, 17, 12, 0)).Seconds);
    }

    [Theory]
    [InlineData("Europe/Lundon", "such as Europe/London")]
    [InlineData("london", "Europe/London")]
    [InlineData("UTC+25", "at most 18 hours")]
    [InlineData("UTC+2:99", "at most 18 hours")]
    [InlineData("", "missing")]
    public void A_zone_that_is_none_is_refused_with_what_to_write(string text, string word)
    {
        Assert.False(ZoneName.TryParse(text, out _, out string why));
        Assert.Contains(word, why, StringComparison.Ordinal);
    }
}
