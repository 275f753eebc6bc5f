using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Pocket.Data;

/// <summary>What the program wrote into the page: cameras with their limits, the print, lenses, tastes, places (docs/json/pocket.md).</summary>
internal sealed record PocketData
{
    public IReadOnlyList<PocketCamera> Cameras { get; init; } = [];

    /// <summary>The print the page is for; null for that of the limits.</summary>
    public PrintCondition? Print { get; init; }

    /// <summary>Focal lengths, mm, shortest first.</summary>
    public IReadOnlyList<double> Lenses { get; init; } = [];

    /// <summary>Streaks the person likes, per cent of the width.</summary>
    public IReadOnlyList<double> Tastes { get; init; } = [];

    public IReadOnlyList<PocketPlace> Places { get; init; } = [];

    /// <summary>The day it was written, in words; empty when not said.</summary>
    public string Made { get; init; } = "";

    public static PocketData Read(string text) => JsonReading.Object(text) is { } members ? Of(new Entry(members)) : new PocketData();

    private static PocketData Of(Entry e) => new()
    {
        Made = e.Text("made"),
        Print = e.Inner("print") is { } print ? PrintOf(print) : null,
        Cameras = e.Each("cameras", CameraOf),
        Lenses = e.Ordered("lenses", "focalLengthMm", 1, 10_000),
        Tastes = e.Ordered("tastes", "streakPercent", 0.01, 1000),
        Places = e.Each("places", PlaceOf),
    };

    private static PrintCondition? PrintOf(Entry e) =>
        e.Within("widthMm", 10, 100_000) is { } width && e.Within("viewingDistanceMm", 10, 100_000) is { } distance ? new PrintCondition(width, distance) : null;

    private static PocketCamera? CameraOf(Entry e)
    {
        if (e.Within("baseIso", 1, 100_000) is not { } baseIso)
            return null;
        FrameFormat? format = e.Inner("format") is { } f && f.Within("widthMm", 1, 2000) is { } width && f.Within("heightMm", 1, 2000) is { } height
            ? FrameFormat.Of(Length.FromMillimetres(width), Length.FromMillimetres(height))
            : null;
        return new PocketCamera(e.Text("name"), Iso.FromSpeed(baseIso), format, e.Each("limits", LimitsOf));
    }

    private static PocketLimits? LimitsOf(Entry e)
    {
        Iso? clean = e.Within("cleanIso", 1, 1e7) is { } c ? Iso.FromSpeed(c) : null, stretch = e.Within("stretchIso", 1, 1e7) is { } s ? Iso.FromSpeed(s) : null;
        if ((clean is null && stretch is null) || (clean is not null && stretch is not null && stretch < clean) || e.Inner("print") is not { } p || PrintOf(p) is not { } print)
            return null;
        LimitTags tags = new(e.Text("body"), print, ToneOf(e.Text("tone")), TreatmentOf(e.Text("treatment")), e.Within("darkLiftStops", 0, 10) is { } lift ? Stops.Of(lift) : null);
        return new PocketLimits(NoiseLimits.Of(clean, stretch, tags, OriginOf(e.Text("how"))), e.Text("judged"), e.Text("remark")) { MeasuredTo = e.Within("measuredToIso", 1, 1e7) is { } highest ? Iso.FromSpeed(highest) : null };
    }

    private static PocketPlace? PlaceOf(Entry e) => e.Text("name") is { Length: > 0 } name ? new PocketPlace(name, e.Each("notes", NoteOf)) : null;

    private static PocketNote? NoteOf(Entry e) => e.Within("meteredEv100", -20, 30) is { } ev
        ? new PocketNote(e.Text("time"), ExposureValue.Of(ev), e.Text("sky"), e.Text("filter"), e.Text("remark"))
        : null;

    // Words of docs/json/pocket.md. Names of the code would have to be looked up by reflection, at each start.
    private static LimitOrigin OriginOf(string word) => word switch { "judged" => LimitOrigin.Judged, "workedOut" => LimitOrigin.WorkedOut, "invented" => LimitOrigin.Invented, _ => LimitOrigin.Given };

    private static ToneKind ToneOf(string word) => word switch
    {
        "midGrey" => ToneKind.MidGrey,
        "shadows" => ToneKind.Shadows,
        "smooth" => ToneKind.Smooth,
        "textured" => ToneKind.Textured,
        _ => ToneKind.NotStated,
    };

    private static NoiseTreatment TreatmentOf(string word) => word switch { "none" => NoiseTreatment.None, "usual" => NoiseTreatment.Usual, _ => NoiseTreatment.NotStated };
}

/// <summary>A camera with its limits, the one that speaks first.</summary>
/// <param name="Name">As it is kept.</param>
/// <param name="BaseIso">Base ISO, exact.</param>
/// <param name="Format">Its frame; null when not known.</param>
/// <param name="Limits">Own judged ones first, worked-out ones last.</param>
internal sealed record PocketCamera(string Name, Iso BaseIso, FrameFormat? Format, IReadOnlyList<PocketLimits> Limits);

/// <summary>A pair of limits with its five tags.</summary>
/// <param name="Limits">The limits.</param>
/// <param name="Judged">The day of the judging in words; empty when not judged.</param>
/// <param name="Remark">Where the ladder ends before them; else empty.</param>
internal sealed record PocketLimits(NoiseLimits Limits, string Judged, string Remark)
{
    /// <summary>The highest ISO that was measured, where it stands for a limit that was not reached; null where both were.</summary>
    public Iso? MeasuredTo { get; init; }

    /// <summary>True where even the highest ISO that was measured is clean: clean has no end that is known.</summary>
    public bool IsCleanOpen => IsOpen(Limits.Clean);

    /// <summary>True where the highest ISO that was measured is still within stretch.</summary>
    public bool IsStretchOpen => IsOpen(Limits.Stretch);

    /// <summary>Tells one pair of a camera from another.</summary>
    public string Key => $"{Limits.Origin} {Limits.Tags.Tone} {Limits.Tags.Treatment} {Limits.Tags.Print.WidthMm:0} {Limits.Tags.Print.ViewingDistanceMm:0}";

    // A level has the label of its ISO, a limit that stands for it the exact power.
    private bool IsOpen(Iso? limit) => MeasuredTo is { } highest && limit is not null && Math.Abs(limit.Above(highest).Value) < 0.05;
}

/// <summary>A place by its name; its whereabouts are not in the page.</summary>
internal sealed record PocketPlace(string Name, IReadOnlyList<PocketNote> Notes);

/// <summary>A light note.</summary>
/// <param name="Time">Day and clock in words.</param>
/// <param name="Metered">As the meter showed it.</param>
/// <param name="Sky">Cloud in words; may be empty.</param>
/// <param name="Filter">The filter that was on; may be empty.</param>
/// <param name="Remark">Own words; may be empty.</param>
internal sealed record PocketNote(string Time, ExposureValue Metered, string Sky, string Filter, string Remark);
