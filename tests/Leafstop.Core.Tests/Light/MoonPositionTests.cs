using Leafstop.Core.Light;
using NodaTime;

namespace Leafstop.Core.Tests.Light;

public class MoonPositionTests(ITestOutputHelper output)
{
    // Published: S-29, moon-positions.csv in full, two libraries; 0.05° and 0.005 of lit share.
    [Fact]
    public void All_10_places_of_the_moon_agree_with_two_libraries()
    {
        double worst = 0, worstShare = 0;
        IReadOnlyList<Row> rows = Table.Read("moon-positions.csv");
        Assert.Equal(10, rows.Count);
        foreach (Row row in rows)
        {
            MoonPosition moon = MoonPosition.At(row.Time("utc"), row.Place());
            foreach (string library in (string[])["A", "B"])
            {
                double altitude = row.Number($"alt_airless_deg_{library}");
                double azimuth = Math.IEEERemainder(moon.Azimuth.Degrees - row.Number($"az_deg_{library}"), 360) * Math.Cos(altitude * Math.PI / 180);
                double off = Math.Max(Math.Abs(moon.Altitude.Degrees - altitude), Math.Abs(azimuth));
                double share = Math.Abs(moon.LitShare - row.Number($"illuminated_fraction_{library}"));
                Assert.True(off < 0.05 && share < 0.005, $"{row["id"]} {library}: off by {off}°, lit share by {share}");
                (worst, worstShare) = (Math.Max(worst, off), Math.Max(worstShare, share));
            }
        }
        output.WriteLine($"worst of 20 comparisons: {worst:F4}°, lit share {worstShare:F5}");
    }

    // Derived: at the moments found the upper limb is on the horizon; up and down take turns.
    [Fact]
    public void Moonrise_and_moonset_are_at_the_horizon()
    {
        Place place = Place.FromDegrees(50.1, -3.2);
        Instant start = Instant.FromUtc(2026, 10, 17, 0, 0);
        var passes = MoonPosition.RiseAndSet(start, start + Duration.FromDays(3), place);
        Assert.InRange(passes.Length, 4, 6);
        for (int i = 0; i < passes.Length; i++)
        {
            Assert.True(i == 0 || passes[i].IsRising != passes[i - 1].IsRising);
            Assert.Equal(-49.5 / 60, MoonPosition.At(passes[i].Time, place).Altitude.Degrees, 0.01);
        }
    }
}
