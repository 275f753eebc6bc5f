namespace Leafstop.Browser;

/// <summary>The clock of this machine. A page is built without time zones and asks its browser, which knows them, for each moment: an offset of today would be an hour wrong on the other side of a change of clocks.</summary>
internal static class LocalTime
{
    /// <summary>A moment by the clock of this machine.</summary>
    public static DateTimeOffset Of(DateTimeOffset at) => OperatingSystem.IsBrowser() ? at.ToOffset(TimeSpan.FromMinutes(Math.Round(PageScript.OffsetAt(at.ToUnixTimeMilliseconds())))) : at.ToLocalTime();
}
