using System.Globalization;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket;

/// <summary>Something that is stepped with minus and plus, or picked from a sheet of values.</summary>
internal sealed record Dial
{
    public required string Name { get; init; }

    /// <summary>Its label.</summary>
    public required string Label { get; init; }

    /// <summary>The value as it is shown, HTML.</summary>
    public required Func<PocketPage, string> Shown { get; init; }

    /// <summary>One step down (−1) or up (+1).</summary>
    public required Action<PocketPage, int> Step { get; init; }

    /// <summary>Takes a value of the sheet.</summary>
    public required Action<PocketPage, double> Set { get; init; }

    /// <summary>The values of one page of the sheet, with what is shown, HTML.</summary>
    public required Func<PocketPage, int, IReadOnlyList<(double Value, string Shown)>> Sheet { get; init; }

    /// <summary>Pages of the sheet.</summary>
    public Func<PocketPage, IReadOnlyList<string>> Pages { get; init; } = _ => [""];

    /// <summary>How many steps this one takes up and down are worth, in words: "a third".</summary>
    public string Unit { get; init; } = "a step";
}

/// <summary>The dials of the page.</summary>
internal static class Dials
{
    /// <summary>Eight rows of three: as many targets of 15 mm as a screen holds.</summary>
    private const int Sheet = 24;

    private static readonly Mark[] Apertures = [.. Marks.FNumbers(DialStep.Thirds).All];
    private static readonly Mark[] Shutters = [.. Marks.Shutters(DialStep.Thirds).All];

    // All of them, once one is asked for by its name: the first screen has its three by hand and need not wait for twenty.
    private static Dial[]? _all;

    private static readonly double[] Focals = [14, 16, 18, 20, 24, 28, 35, 40, 50, 60, 70, 85, 100, 135, 150, 200, 300, 400];
    private static readonly double[] Distances = [0.5, 0.6, 0.8, 1, 1.2, 1.5, 1.8, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 70, 100];

    public static readonly Dial Under = new()
    {
        Name = "under",
        Label = "stops under",
        Unit = "a third",
        Shown = p => Html.Thirds(p.Gap),
        Step = (p, by) => p.SetUnder(p.Gap.NearestThird() + Stops.FromThirds(by)),
        Set = (p, thirds) => p.SetUnder(Stops.FromThirds((int)Math.Round(thirds))),
        Sheet = (_, page) => [.. Enumerable.Range(page == 0 ? -3 : 15, Sheet).Select(t => ((double)t, Html.Thirds(Stops.FromThirds(t))))],
        Pages = _ => ["few", "more"],
    };

    public static readonly Dial Aperture = new()
    {
        Name = "aperture",
        Label = "aperture",
        Unit = "a third",
        Shown = p => p.Aperture.ToDisplay(),
        Step = (p, by) => p.State.Aperture = Stepped(Apertures, p.State.Aperture, by),
        Set = (p, value) => p.State.Aperture = value,
        // One row a stop, f/2 to f/29; then what lies either side of it.
        Sheet = (_, page) => [.. (page == 0 ? Apertures[6..30] : [.. Apertures[..6], .. Apertures[30..]]).Select(m => (m.Exact, FNumber.FromRatio(m.Exact).ToDisplay()))],
        Pages = _ => ["f/2 to f/29", "wider, smaller"],
    };

    public static readonly Dial Shutter = ShutterDial("shutter", "shutter", p => p.State.Shutter, (p, v) => p.State.Shutter = v);

    public static readonly Dial SecondShutter = ShutterDial("second", "leaves", p => p.State.SecondShutter, (p, v) => p.State.SecondShutter = v);

    public static readonly Dial Leave = new()
    {
        Name = "leave",
        Label = "leave by",
        Unit = "five minutes",
        Shown = p => p.State.LeaveAt is { } at ? p.Now.Clock(at) : "not set",
        Step = (p, by) => p.State.LeaveAt = Screens.LeaveScreen.Stepped(p.State.LeaveAt, p.Now, by),
        Set = (p, value) => p.State.LeaveAt = value,
        Sheet = (p, page) => Screens.LeaveScreen.Quarters(p.Now, page * Sheet, Sheet),
        Pages = _ => ["next 6 hours", "later"],
    };

    private static Dial[] MakeAll() =>
    [
        Under, Aperture, Shutter, SecondShutter, Leave,
        Listed("focal", "lens", p => [.. Focals.Concat(p.Data.Lenses).Distinct().Order()], p => p.State.Focal, (p, v) => p.State.Focal = v, mm => $"{Figure(mm)}\u00A0mm"),
        Listed("near", "near", _ => Metres(Distances), p => p.State.Near, (p, v) => { p.State.Near = v; p.State.DepthOn = true; if (p.State.Far <= v) p.State.Far = double.PositiveInfinity; }, Distance),
        Listed("far", "far", _ => [.. Metres(Distances)[4..], double.PositiveInfinity], p => p.State.Far, (p, v) => { p.State.Far = Math.Max(v, p.State.Near * 1.1); p.State.DepthOn = true; }, Distance),
        Listed("water", "to the water", _ => Metres(Distances), p => p.State.WaterDistance, (p, v) => { p.State.WaterDistance = v; p.State.WaterOn = true; }, Distance),
        Listed("speed", "water runs", _ => [0.1, 0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10], p => p.State.WaterSpeed, (p, v) => { p.State.WaterSpeed = v; p.State.WaterOn = true; }, v => Speed.FromMetresPerSecond(v).ToDisplay().Replace(' ', '\u00A0')),
        Listed("taste", "streak wanted", p => [.. new[] { 0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30 }.Concat(p.Data.Tastes).Distinct().Order()], p => p.State.Taste, (p, v) => { p.State.Taste = v; p.State.WaterOn = true; }, v => $"{Figure(v)}\u00A0%"),
        Listed("leaf", "to the leaves", _ => Metres(Distances), p => p.State.LeafDistance, (p, v) => p.State.LeafDistance = v, Distance),
        Listed("print", "print, width", _ => Centimetres([15, 20, 25, 30, 40, 42, 45, 50, 60, 70, 75, 80, 90, 100, 120, 150]), p => p.Print?.WidthMm ?? 600, (p, v) => p.SetPrint(v, null), Distance),
        Listed("from", "seen from", _ => Centimetres([25, 30, 40, 50, 60, 70, 80, 100, 120, 150, 200, 250, 300]), p => p.Print?.ViewingDistanceMm ?? 600, (p, v) => p.SetPrint(null, v), Distance),
        Listed("inches", "screen diagonal", _ => [2.5, 2.7, 3, 3.2, 3.5, 4, 5], p => p.State.ScreenInches, (p, v) => p.State.ScreenInches = v, v => $"{Figure(v)}\u00A0in"),
        Listed("eye", "seen from", _ => Centimetres([15, 20, 25, 30, 35, 40, 50]), p => p.State.ScreenDistance, (p, v) => p.State.ScreenDistance = v, Distance),
        Listed("clicks", "your clicks", _ => [.. Enumerable.Range(0, 21).Select(n => (double)n)], p => p.State.Clicks, (p, v) => p.State.Clicks = (int)v, v => v == 0 ? "not counted" : Figure(v)),
        Listed("clean", "your clean", _ => Isos(), p => p.State.OwnClean ?? 800, (p, v) => p.SetOwn(v, null), v => Html.Iso(Iso.FromSpeed(v)), p => p.State.OwnClean is not null),
        Listed("stretch", "your stretch", _ => Isos(), p => p.State.OwnStretch ?? 3200, (p, v) => p.SetOwn(null, v), v => Html.Iso(Iso.FromSpeed(v)), p => p.State.OwnStretch is not null),
        Listed("base", "base ISO", _ => [.. Marks.Isos(DialStep.Thirds).All.Where(m => m.Label is >= 25 and <= 800).Select(m => m.Exact)], p => p.State.OwnBase, (p, v) => p.State.OwnBase = v, v => Html.Iso(Iso.FromSpeed(v))),
    ];

    /// <summary>The dial of a name; null when there is none.</summary>
    public static Dial? Named(string name) => Array.Find(_all ??= MakeAll(), d => d.Name == name);

    /// <summary>The dial of a name that is known to be there.</summary>
    public static Dial Of(string name) => Named(name) ?? throw new ArgumentOutOfRangeException(nameof(name), name, "There is no such dial.");

    /// <summary>A number with no more figures than it needs.</summary>
    public static string Figure(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A distance, "infinity" included.</summary>
    public static string Distance(double millimetres) => SubjectDistance.FromMillimetres(millimetres).ToDisplay().Replace(' ', '\u00A0');

    private static Dial ShutterDial(string name, string label, Func<PocketPage, double> get, Action<PocketPage, double> set) => new()
    {
        Name = name,
        Label = label,
        Unit = "a third",
        Shown = p => ShutterTime.FromSeconds(get(p)).ToDisplay().Replace(' ', '\u00A0'),
        Step = (p, by) => set(p, Stepped(Shutters, get(p), by)),
        Set = set,
        // One row a stop; the middle of the dial first.
        Sheet = (_, page) => [.. (page switch { 0 => Shutters[12..36], 1 => Shutters[36..], _ => Shutters[..12] }).Select(m => (m.Exact, ShutterTime.FromSeconds(m.Exact).ToDisplay().Replace(" s", "", StringComparison.Ordinal)))],
        Pages = _ => ["1/500 to 0.4 s", "longer", "shorter"],
    };

    private static Dial Listed(string name, string label, Func<PocketPage, double[]> values, Func<PocketPage, double> get, Action<PocketPage, double> set, Func<double, string> shown, Func<PocketPage, bool>? isSet = null) => new()
    {
        Name = name,
        Label = label,
        Shown = p => isSet?.Invoke(p) == false ? "not set" : Html.Text(shown(get(p))),
        Step = (p, by) => set(p, Neighbour(values(p), get(p), by)),
        Set = set,
        Sheet = (p, page) => [.. values(p).Skip(page * Sheet).Take(Sheet).Select(v => (v, Html.Text(shown(v))))],
        Pages = p => [.. values(p).Chunk(Sheet).Select(part => $"{shown(part[0])} to {shown(part[^1])}")],
    };

    private static double Stepped(Mark[] marks, double exact, int by)
    {
        int nearest = 0;
        for (int i = 1; i < marks.Length; i++)
        {
            if (Math.Abs(Math.Log2(marks[i].Exact / exact)) <= Math.Abs(Math.Log2(marks[nearest].Exact / exact)))
                nearest = i;
        }
        return marks[Math.Clamp(nearest + by, 0, marks.Length - 1)].Exact;
    }

    /// <summary>The next value of a list above or below; the last one stays.</summary>
    private static double Neighbour(double[] values, double now, int by)
    {
        double hair = double.IsFinite(now) ? Math.Abs(now) * Stops.Hair : 0;
        double[] beyond = by > 0 ? [.. values.Where(v => v > now + hair)] : [.. values.Where(v => v < now - hair).Reverse()];
        return beyond.Length > 0 ? beyond[0] : now;
    }

    private static double[] Metres(double[] metres) => [.. metres.Select(m => m * 1000)];

    private static double[] Centimetres(double[] centimetres) => [.. centimetres.Select(c => c * 10)];

    private static double[] Isos() => [.. Marks.Isos(DialStep.Thirds).All.Where(m => m.Label is >= 100 and <= 40_000).Select(m => m.Exact)];
}
