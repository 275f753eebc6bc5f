using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Core.Text;
using NodaTime;
using NodaTime.Text;

namespace Leafstop.Look.Plan;

/// <summary>Reads a place that shall be kept, and the light that was metered there, as people write them: the options of leafstop places, or the blanks of a page.</summary>
public static class PlaceReading
{
    /// <summary>Name of the person's own words in a note.</summary>
    public const string Remark = "remark";

    // Without fractions of a second: that is how a note is kept.
    private static readonly string[] OnTheClock = ["uuuu-MM-dd HH:mm", "uuuu-MM-dd HH:mm:ss"];
    private static readonly OffsetDateTimePattern WithOffset = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-ddTHH:mm:sso<G>");

    /// <summary>The place, without notes.</summary>
    /// <param name="written">Where, whose clock, and what stands around.</param>
    /// <param name="name">What it is called.</param>
    public static KnownPlace Read(WrittenValues written, string name)
    {
        SkyConditions around = LightReading.ReadSky(written, null);
        if (!written.Has(PlanNames.Latitude) || !written.Has(PlanNames.Longitude))
        {
            throw written.Wrong(
                $"Say where with {written.Called(PlanNames.Latitude)} and {written.Called(PlanNames.Longitude)} in degrees, such as {written.Example(PlanNames.Latitude, "50.1")} and {written.Example(PlanNames.Longitude, "-3.2")}.");
        }
        string zone = written.Text(PlanNames.Zone) ?? throw LightReading.NoClock(written);
        return new KnownPlace(
            name, LightReading.ReadPlace(written), LightReading.ReadZone(written, zone).Id, around.SkyLine.Ridge, written.Text(PlanNames.Canopy)?.Trim(), around.View, []);
    }

    /// <summary>A light note: what the meter showed, when, under what sky.</summary>
    /// <param name="written">The note.</param>
    /// <param name="zone">The zone of the place, as <see cref="ZoneName"/> reads it.</param>
    /// <param name="longestRemark">Longer remarks are refused.</param>
    public static LightNote ReadNote(WrittenValues written, string zone, int longestRemark)
    {
        string shown = written.Text(PlanNames.Ev) ?? throw written.Wrong($"{written.Called(PlanNames.Ev)}: what the meter showed is missing: write it such as {written.Example(PlanNames.Ev, "6 2/3")}.");
        if (!ExposureValue.TryParse(shown, out ExposureValue metered, out string why))
            throw written.Wrong($"{written.Called(PlanNames.Ev)}: {why}");
        FilterSet filters = FilterSet.None;
        string filter = written.Text(PlanNames.Filters)?.Trim() ?? "";
        if (filter.Length > 0 && !FilterSet.TryParse(filter, out filters, out why))
            throw written.Wrong($"{written.Called(PlanNames.Filters)}: {why}");
        string remark = written.Text(Remark)?.Trim() ?? "";
        if (remark.Length > longestRemark || remark.Any(OutsideText.IsHidden))
            throw written.Wrong($"{written.Called(Remark)}: at most {longestRemark} characters, all of them visible.");
        CloudCover? cloud = written.Text(PlanNames.Okta) is { } okta ? LightReading.Told(written, () => CloudCover.FromOkta(LightReading.Number(written, PlanNames.Okta, okta))) : null;
        string time = written.Text(PlanNames.At) ?? throw written.Wrong($"{written.Called(PlanNames.At)}: say when it was metered, such as {written.Example(PlanNames.At, "\"2026-10-17 08:40\"")}.");
        return new LightNote(ReadTime(written, time, zone), metered, cloud, filters.Total, filters.IsEmpty ? "" : filter, remark);
    }

    private static Instant ReadTime(WrittenValues written, string time, string zone)
    {
        foreach (string pattern in OnTheClock)
        {
            ParseResult<LocalDateTime> local = LocalDateTimePattern.CreateWithInvariantCulture(pattern).Parse(time.Trim().Replace('T', ' '));
            if (local.Success)
            {
                return Reached(
                    written, LightReading.OnTheClock(written, written.Called(PlanNames.At), local.Value, LightReading.ReadZone(written, zone), "write it with its offset, such as 2026-10-25T01:30:00+01:00"), time);
            }
        }
        ParseResult<OffsetDateTime> whole = WithOffset.Parse(time.Trim());
        return whole.Success
            ? Reached(written, whole.Value.ToInstant(), time)
            : throw written.Wrong($"{written.Called(PlanNames.At)}: '{time}' is no time: write date and time such as \"2026-10-17 08:40\".");
    }

    private static Instant Reached(WrittenValues written, Instant when, string time) => Reach.Holds(when.InUtc().Date)
        ? when
        : throw written.Wrong($"{written.Called(PlanNames.At)}: {time} is out of reach: the sun is worked out for the years {Reach.FirstYear} to {Reach.LastYear}.");
}
