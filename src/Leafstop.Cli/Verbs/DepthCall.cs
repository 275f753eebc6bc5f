using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Verbs;

/// <summary>A distance as it was given and as it is from the lens.</summary>
/// <param name="Given">From where the call measures.</param>
/// <param name="FromLens">From the lens.</param>
internal sealed record GivenDistance(SubjectDistance Given, SubjectDistance FromLens);

/// <summary>What was asked of leafstop depth, read and checked.</summary>
internal sealed record DepthCall
{
    // f/0.5 is the limit of a lens in air (common practice, no source); pinholes reach a few hundred.
    private const double WidestAperture = 0.5;
    private const double SmallestAperture = 1000;

    public required Lens Lens { get; init; }

    public required FNumber? Aperture { get; init; }

    public required string? ApertureWritten { get; init; }

    public required NumberReading Reading { get; init; }

    public required PermittedBlur Blur { get; init; }

    public required bool IsFromMark { get; init; }

    public required SubjectDistance? Focus { get; init; }

    public required SubjectDistance? Near { get; init; }

    public required SubjectDistance? Far { get; init; }

    public required IReadOnlyList<SubjectDistance> Points { get; init; }

    public required Share Overlap { get; init; }

    /// <summary>What the answer rests on though nobody said it, in words.</summary>
    public required IReadOnlyList<(string Name, string Words)> Assumed { get; init; }

    public static DepthCall Read(ParseResult call, DepthOptions options)
    {
        NumberReading reading = call.GetValue(options.Literal) ? NumberReading.Literal : NumberReading.Marks;
        var written = new WrittenOptions(call, reading);
        Length focal = written.Struct<Length>(options.Focal, Length.TryParse) ?? throw Refusal.WrongCall("--focal is missing: write the focal length of the lens, such as --focal 24mm.");
        if (focal.Millimetres is < 1 or > 10_000)
            throw Refusal.WrongCall($"--focal: {call.GetValue(options.Focal)} is no lens: write a focal length between 1 mm and 10 m.");
        FNumber? aperture = written.Marked<FNumber>(options.Aperture, FNumber.TryParse, _ => true, "");
        if (aperture is not null && aperture.Ratio is < WidestAperture or > SmallestAperture)
            throw Refusal.WrongCall($"--aperture: f/{call.GetValue(options.Aperture)!.TrimStart('f', 'F', '/')} cannot be built: write an f-number between f/0.5 and f/1000, such as f/8.");
        List<(string, string)> assumed = [];
        PermittedBlur blur = ReadBlur(call, written, options, assumed);
        DepthCall read = new()
        {
            Lens = Lens.Of(focal),
            Aperture = aperture,
            ApertureWritten = call.GetValue(options.Aperture),
            Reading = reading,
            Blur = blur,
            IsFromMark = call.GetValue(options.From) == "mark",
            Focus = Reachable(options.Focus, written.Class<SubjectDistance>(options.Focus, SubjectDistance.TryParse)),
            Near = Reachable(options.Near, written.Class<SubjectDistance>(options.Near, SubjectDistance.TryParse)),
            Far = Reachable(options.Far, written.Class<SubjectDistance>(options.Far, SubjectDistance.TryParse)),
            Points = [.. (call.GetValue(options.At) ?? []).Select(text => Reachable(options.At, ReadPoint(options.At, text))!)],
            Overlap = ReadOverlap(call, written, options),
            Assumed = assumed,
        };
        read.CheckQuestion(call, options);
        return read;
    }

    /// <summary>The focus, from the lens.</summary>
    public SubjectDistance FocusFromLens()
    {
        string written = $"--focus: {Focus!.ToDisplay()}";
        if (IsFromMark && Focus.Millimetres < 4 * Lens.FocalLength.Millimetres)
            throw Refusal.WrongCall($"{written} is nearer than a {Mm(Lens.FocalLength)} lens can focus from the mark: four focal lengths are the least.");
        if (!IsFromMark && Focus.Millimetres <= Lens.FocalLength.Millimetres)
            throw Refusal.WrongCall($"{written} lies inside the focal length of {Mm(Lens.FocalLength)}: no lens focuses there.");
        return IsFromMark ? FocusMark.ToLens(Lens, Focus) : Focus;
    }

    /// <summary>The limits, from the lens.</summary>
    public DepthDemand Demand()
    {
        if (Near! >= Far!)
            throw Refusal.WrongCall($"--near {Near!.ToDisplay()} is not nearer than --far {Far!.ToDisplay()}: exchange them.");
        try
        {
            return IsFromMark ? FocusMark.DemandFromMark(Lens, Near!, Far!) : DepthDemand.Of(Lens, Near!, Far!);
        }
        catch (ArgumentOutOfRangeException)
        {
            throw Refusal.WrongCall($"--near: {Near!.ToDisplay()} is nearer than a {Mm(Lens.FocalLength)} lens can focus: write a distance beyond it.");
        }
    }

    /// <summary>The points asked about, with the lens focused.</summary>
    public IReadOnlyList<GivenDistance> PointsFromLens(SubjectDistance focus)
    {
        double behind = IsFromMark ? Lens.ImageDistance(focus).Millimetres : 0;
        return [.. Points.Select(p => p.Millimetres > behind
            ? new GivenDistance(p, SubjectDistance.FromMillimetres(p.Millimetres - behind))
            : throw Refusal.WrongCall($"--at: {p.ToDisplay()} from the mark lies inside the camera: write the distance of something in front of the lens."))];
    }

    /// <summary>A distance from the lens, measured as the call measures.</summary>
    public SubjectDistance AsMeasured(SubjectDistance focus, SubjectDistance fromLens) =>
        IsFromMark ? FocusMark.FromLens(Lens, focus, fromLens) : fromLens;

    /// <summary>A focal length as it is engraved, "24 mm".</summary>
    public static string Mm(Length length) => $"{length.Millimetres.ToString("0.##", CultureInfo.InvariantCulture)} mm";

    private static PermittedBlur ReadBlur(ParseResult call, WrittenOptions written, DepthOptions options, List<(string, string)> assumed)
    {
        Length? circle = written.Struct<Length>(options.Coc, Length.TryParse);
        Length? print = written.Struct<Length>(options.Print, Length.TryParse);
        Length? distance = written.Struct<Length>(options.Distance, Length.TryParse);
        if (circle is { } given)
        {
            Option[] odd = [options.Print, options.Distance, options.Format, options.Acuity, options.Crop];
            if (odd.FirstOrDefault(o => call.GetResult(o) is not null) is { } both)
                throw Refusal.WrongCall($"--coc and {both.Name} both say what blur passes: give the circle of confusion or the print, not both.");
            return given.Millimetres is > 0 and <= 10
                ? PermittedBlur.OfCircle(given)
                : throw Refusal.WrongCall($"--coc: {call.GetValue(options.Coc)} is no circle of confusion: write the blur on the sensor that passes, such as 0.030mm.");
        }
        if (print is null && distance is null)
            throw Refusal.WrongCall("How sharp is sharp enough? Give the print with --print 60cm --distance 60cm, or a circle of confusion with --coc 0.030mm.");
        if (print is null)
            throw Refusal.WrongCall("--print is missing: write the width of the print, such as --print 60cm.");
        if (distance is null)
            throw Refusal.WrongCall("--distance is missing: write from how far the print is looked at, such as --distance 60cm.");
        Check(options.Print, print.Value, call.GetValue(options.Print)!);
        Check(options.Distance, distance.Value, call.GetValue(options.Distance)!);
        FrameFormat format = written.Class<FrameFormat>(options.Format, FrameFormat.TryParse) ?? FrameFormat.FullFrame;
        if (format.Diagonal.Millimetres is < 1 or > 2000)
            throw Refusal.WrongCall($"--format: {call.GetValue(options.Format)} is no frame of a camera: write width and height such as 36x24mm.");
        Angle acuity = written.Struct<Angle>(options.Acuity, WrittenOptions.TryArcminutes) ?? DepthWish.AcuityWhenOmitted;
        if (acuity.Arcminutes is not (>= 0.1 and <= 60))
            throw Refusal.WrongCall($"--acuity: {call.GetValue(options.Acuity)} is no acuity of an eye: write minutes of arc between 0.1 and 60, such as 1.43.");
        Share crop = written.Struct<Share>(options.Crop, Share.TryParse) ?? Share.Whole;
        if (crop.Value < 0.01)
            throw Refusal.WrongCall($"--crop: {call.GetValue(options.Crop)} leaves no picture: write the share of the width that is printed, such as 0.67.");
        if (call.GetResult(options.Acuity) is null)
            assumed.Add(("acuity", "an acuity of 1.43′"));
        if (call.GetResult(options.Format) is null)
            assumed.Add(("format", "a frame of 36 × 24 mm"));
        return PermittedBlur.OfPrint(new PrintedFrame(ViewingCondition.Of(print.Value, distance.Value, acuity), format, crop.Value));
    }

    // A stamp seen through a glass to a wall seen across a square.
    private static void Check(Option option, Length length, string written)
    {
        if (length.Metres is not (>= 0.01 and <= 100))
            throw Refusal.WrongCall($"{option.Name}: {written} is not between 1 cm and 100 m.");
    }

    private static SubjectDistance ReadPoint(Option option, string text) =>
        SubjectDistance.TryParse(text, out SubjectDistance? point, out string why) ? point! : throw Refusal.WrongCall($"{option.Name}: {why}");

    // Far beyond the moon; keeps reciprocals well inside what numbers can hold.
    private static SubjectDistance? Reachable(Option option, SubjectDistance? distance) => distance is { IsInfinite: false, Metres: > 1e9 }
        ? throw Refusal.WrongCall($"{option.Name}: that is farther than anything in a landscape: write inf for infinity.")
        : distance;

    private static Share ReadOverlap(ParseResult call, WrittenOptions written, DepthOptions options)
    {
        Share overlap = written.Struct<Share>(options.Overlap, Share.TryParse) ?? Share.Of(DepthWish.Overlap);
        return overlap.Value <= 0.9
            ? overlap
            : throw Refusal.WrongCall($"--overlap: {call.GetValue(options.Overlap)} leaves hardly a step between frames: write a share up to 0.9, such as 0.3.");
    }

    private void CheckQuestion(ParseResult call, DepthOptions options)
    {
        bool hasLimits = Near is not null || Far is not null;
        if (Focus is not null && hasLimits)
            throw Refusal.WrongCall("--focus goes without --near and --far: give the focus to be told the limits, or the limits to be told the focus.");
        if (Focus is null && !hasLimits)
            throw Refusal.WrongCall("--focus is missing: write the distance focused on, such as --focus 5m, or the limits with --near 1.8m --far inf.");
        if (hasLimits && Near is null)
            throw Refusal.WrongCall("--near is missing: write the nearest thing that must be sharp, such as --near 1.8m.");
        if (hasLimits && Far is null)
            throw Refusal.WrongCall("--far is missing: write the farthest thing that must be sharp, such as --far inf.");
        if (Focus is not null && Aperture is null)
            throw Refusal.WrongCall("--aperture is missing: write the f-number, such as --aperture f/8.");
        if (hasLimits && Near!.IsInfinite)
            throw Refusal.WrongCall("--near inf leaves nothing before it: focus on infinity, or write the nearest thing that must be sharp.");
        if (call.GetResult(options.Overlap) is not null && !(hasLimits && Aperture is not null))
            throw Refusal.WrongCall("--overlap belongs to focus steps: give it with --near, --far and --aperture.");
        if (Points.Count > 0 && Focus is null)
            throw Refusal.WrongCall("--at belongs to a focus: give it with --focus and --aperture.");
        if (Aperture is not null && Blur.Circle.Millimetres * Aperture.Ratio >= Lens.FocalLength.Millimetres)
            throw Refusal.WrongCall($"A blur of {Blur.Circle.ToDisplay()} is as wide as the opening of {Mm(Lens.FocalLength)} at {Aperture.ToDisplay()}: everything would pass. Check --aperture and the print or --coc.");
    }
}
