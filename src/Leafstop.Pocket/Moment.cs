using System.Globalization;

namespace Leafstop.Pocket;

/// <summary>A time with the local clock.</summary>
/// <param name="Milliseconds">Of 1970 UTC.</param>
/// <param name="ZoneMinutes">Local clock ahead of UTC.</param>
internal readonly record struct Moment(double Milliseconds, int ZoneMinutes)
{
    /// <summary>"06:50" by the local clock.</summary>
    public string Clock(double milliseconds) =>
        DateTimeOffset.FromUnixTimeMilliseconds((long)milliseconds).ToOffset(TimeSpan.FromMinutes(ZoneMinutes)).ToString("HH:mm", CultureInfo.InvariantCulture);
}
