using System.Collections.Immutable;
using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper;
using Leafstop.Cli.Paper.Strip;
using Leafstop.Cli.Telling;
using Leafstop.Cli.Telling.Judging;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop strip: one printable page of crops of every level at the scale of a print, to be judged blind on paper.</summary>
internal static class StripVerb
{
    private const long MostNumber = 999_999;

    private static readonly Argument<string> Folder = new("DIR") { Description = "Folder of raw files of a bench test." };
    private static readonly Option<string> File = new("--out") { Description = "File to write, .pdf.", HelpName = "FILE", Required = true };
    private static readonly PrintOptions Print = new("that is judged");
    private static readonly Option<string?> Sheet = new("--sheet") { Description = "Sheet of paper: a4 or letter; a4 when not given.", HelpName = "SHEET" };
    private static readonly ImmutableArray<(CropSubject Subject, Option<string?> Option)> Places =
    [
        (CropSubject.Dark, Place("--dark", "a deep smooth dark")), (CropSubject.MidTone, Place("--mid", "a smooth mid tone")), (CropSubject.Texture, Place("--texture", "fine texture")),
    ];
    private static readonly Option<string?> Lift = new("--lift") { Description = "Stops by which the dark is lifted for showing, 0 to 10; until it can be seen when not given. The limits hold for it.", HelpName = "STOPS" };
    private static readonly Option<string?> Camera = new("--camera") { Description = "Kept camera that the answers will belong to; the model that the files state when not given.", HelpName = "NAME" };
    private static readonly Option<long?> Number = WholeNumber.Option("--number", "Number of the strip, which draws the letters: the same number and folder give the same strip again. The next free one when not given.");

    public static Command Build(Surroundings say)
    {
        Verb verb = new("strip", "Writes a test strip to print and judge blind: crops of every level as large as in the print that is meant.",
            "leafstop strip ~/bench --print 60cm --out strip.pdf",
            "leafstop strip ~/bench --print 24in --distance 60cm --sheet letter --camera \"Body A\" --out strip.pdf",
            "leafstop strip ~/bench --print 60cm --dark 20%,35% --texture 72%,60% --out strip.pdf")
        {
            Folder, File, Print.Print, Print.Distance, Sheet, Lift, Camera, Number, say.JsonOption, say.QuietOption,
        };
        foreach (var (_, option) in Places)
            verb.Options.Add(option);
        verb.SetAction(call => Write(call, say));
        return verb;
    }

    private static Option<string?> Place(string name, string what) => new(name)
    {
        Description = $"Middle of the crop that shows {what}, from the left and the top edge of the frame as the file has it, such as 20%,35%; looked for when not given.",
        HelpName = "ACROSS,DOWN",
    };

    private static int Write(ParseResult call, Surroundings say)
    {
        string folder = call.GetRequiredValue(Folder), file = call.GetRequiredValue(File);
        if (!Directory.Exists(folder))
            throw Refusal.WrongCall($"There is no folder '{folder}'.");
        if (!Path.GetExtension(file).Equals(".pdf", StringComparison.OrdinalIgnoreCase))
            throw Refusal.WrongCall($"--out writes a PDF: give it a name that ends in .pdf, not '{file}'.");
        ResultFile.CheckPlace(file, mayReplace: true);
        PaperSheet sheet = SheetOf(call);
        ChosenPlace[] places = [.. Places.Select(p => ChosenPlace.Read(p.Subject, p.Option, call)).OfType<ChosenPlace>()];
        PrintCondition print = Print.Read(call);
        Stops? lift = LiftOf(call);
        if (call.GetValue(Number) is { } wanted and (< 1 or > MostNumber))
            throw Refusal.WrongCall($"--number: a strip has a number from 1 to {MostNumber}, not {wanted}.");
        StripRecord records = new(DataFolders.Writable(call, say));
        long number = call.GetValue(Number) ?? records.NextNumber();
        bool isQuiet = call.GetValue(say.QuietOption);

        BenchAnswer answer = BenchTelling.MeasureFolder(folder, print, isQuiet, say);
        if (!answer.HasAnswer || answer.Camera is not { } camera)
            throw Refusal.NoAnswer($"the folder '{folder}' holds no ladder that a strip could be made of{(answer.Findings.FirstOrDefault(f => f.Code == FindingCode.JpegOnly) is { } jpegs ? $". {BenchText.Plain(jpegs.Text)}" : $"; leafstop measure \"{folder}\" says why.")}");
        if (JudgedLevels.Refusal(answer) is { } why)
            throw Refusal.NoAnswer(why);
        (string owner, bool isKept) = records.OwnerOf(call.GetValue(Camera), camera);
        (StripContent content, StripLayout layout) = Content(answer, camera, print, sheet, places, lift, number, isQuiet, say);
        say.Stop.ThrowIfCancellationRequested();
        ResultFile.Put(file, StripDocument.Make(content, layout), isQuiet, say);
        records.Keep(content, owner, say.Clock.GetUtcNow());

        if (call.GetValue(say.JsonOption))
            say.Out.Write(StripTelling.Json(content, layout, owner, isKept, file));
        else
            say.Out.Write(StripTelling.Text(content, layout, owner, isKept, file));
        return ExitCode.Done;
    }

    private static Stops? LiftOf(ParseResult call)
    {
        if (call.GetValue(Lift) is not { } text)
            return null;
        if (!Stops.TryParse(text, out Stops lift, out string why))
            throw Refusal.WrongCall($"--lift: {Figures.Uncapital(why)}");
        return lift.Value is >= 0 and <= 10 ? lift : throw Refusal.WrongCall($"--lift: the dark is lifted by 0 to 10 stops, not by {text.Trim()}.");
    }

    private static PaperSheet SheetOf(ParseResult call)
    {
        string name = call.GetValue(Sheet) ?? PaperSheet.A4.Name;
        return ((PaperSheet[])[PaperSheet.A4, PaperSheet.Letter]).FirstOrDefault(s => s.Name.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw Refusal.WrongCall($"--sheet: '{name}' is no sheet that is known here: a4 or letter.");
    }

    private static (StripContent, StripLayout) Content(
        BenchAnswer answer, CameraIdentity camera, PrintCondition print, PaperSheet sheet, ChosenPlace[] chosen, Stops? lift, long number, bool isQuiet, Surroundings say)
    {
        double perCentimetre = camera.Width / (print.WidthMm / 10);
        // The crops are cut before it is known which levels can be shown: as large as the sheet takes for all of them.
        (_, _, StripLayout most) = Arranged(number, Ladder(() => JudgingLadder.Of(answer.Levels.Where(l => l.Usable).DistinctBy(l => l.Iso).Select(l => new LadderIso(l.Iso, HasPair: true))), []), sheet);
        CropWish wish = new() { SidePixels = Side(most, perCentimetre, print), DarkLiftStops = lift?.Value };
        RefuseTooSmall(wish.SideOn(camera), perCentimetre, camera, print);
        DevelopedCrops crops = Cut(answer, wish with { Moved = [.. chosen.Select(p => p.In(wish.SideOn(camera), camera))] }, isQuiet, say);
        // All three places stand behind a letter, and the smooth ones show noise first: that is the tone that the answers hold for.
        var levels = JudgedLevels.Of(crops, ToneKind.Smooth, StripContent.Subjects.Select(s => s.Subject));
        ImmutableArray<string> notes =
        [
            .. levels.LeftOut.Select(l => LevelWords.NotShown(l.Level, l.Why)),
            .. crops.Notes,
            .. JudgedLevels.Told(answer).Select(BenchText.Line),
        ];
        (BlindCodes codes, int repeats, StripLayout layout) = Arranged(number, Ladder(levels.ToLadder, notes), sheet);
        ImmutableArray<StripPlace> places =
        [
            .. crops.Places.Select(p => (Place: p, Middle: p.Middle(crops.Crops[0].SidePixels, camera)))
                .Select(p => new StripPlace(p.Place.Subject, p.Middle.Across, p.Middle.Down, chosen.Any(c => c.Subject == p.Place.Subject))),
        ];
        return (new StripContent(number, codes, repeats, crops, places, new LimitTags(camera.ToWords(), print, ToneKind.Smooth, NoiseTreatment.None, Lifted(crops)), camera.Width, notes)
        {
            Noise = CropNoise.Of(crops, levels.Isos.Select(i => i.Iso), PixelsPerDegree(print, camera)),
        }, layout);
    }

    // The acuity is not asked: noise is weighed by the eye's contrast sensitivity.
    private static double PixelsPerDegree(PrintCondition print, CameraIdentity camera) =>
        ViewingCondition.Of(Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), Angle.FromArcminutes(1)).PixelsPerDegree(camera.Width);

    /// <summary>By how much the dark is lifted; null where the scene has none.</summary>
    private static Stops? Lifted(DevelopedCrops crops) => crops.Crops.FirstOrDefault(c => c.Subject == CropSubject.Dark) is { } dark ? Stops.Of(dark.LiftStops) : null;

    /// <summary>A crop is an eighth of the frame at most, because smooth places are no larger, and on a small print an eighth shows too little to judge.</summary>
    private static void RefuseTooSmall(int side, double perCentimetre, CameraIdentity camera, PrintCondition print)
    {
        double sideMm = side / perCentimetre * 10;
        if (sideMm >= StripLayout.LeastShownMm)
            return;
        double leastMm = Math.Ceiling(StripLayout.LeastShownMm * camera.Width / side / 10) * 10;
        throw Refusal.NoAnswer($"a print {Figures.Length(print.WidthMm)} wide is too small for a strip: a crop would be {PaperPen.Mm(sideMm)} wide and show too little to judge. Ask for one of {Figures.Length(leastMm)} or wider; its limits are worked out for the smaller print.");
    }

    private static JudgingLadder Ladder(Func<JudgingLadder> of, IEnumerable<string> notes)
    {
        try
        {
            return of();
        }
        catch (ArgumentException tooShort)
        {
            throw Refusal.NoAnswer(string.Join(" ", notes.Append(Refusal.Sentence(tooShort))));
        }
    }

    /// <summary>As many repeats as the sheet has room for: they tell how steady the eye is.</summary>
    private static (BlindCodes, int, StripLayout) Arranged(long number, JudgingLadder ladder, PaperSheet sheet)
    {
        for (int repeats = Math.Min(4, ladder.Isos.Length); repeats >= 0; repeats--)
        {
            if (ladder.Isos.Length + repeats + 1 <= BlindCodes.Letters.Length && StripLayout.For(sheet, ladder.Isos.Length + repeats + 1, StripContent.Subjects.Length) is { } layout)
                return (BlindCodes.For(number, ladder, repeats), repeats, layout);
        }

        throw Refusal.NoAnswer($"{ladder.Isos.Length} levels are more than one sheet shows: copy the frames of about twelve of them, a third or two thirds of a stop apart, into a folder of their own.");
    }

    private static int Side(StripLayout layout, double perCentimetre, PrintCondition print)
    {
        int room = (int)Math.Floor(layout.RoomMm / 10 * perCentimetre);
        return room >= CropWish.LeastSide
            ? Math.Min(room, CropWish.MostSide)
            : throw Refusal.NoAnswer($"a print {Figures.Length(print.WidthMm)} wide has only {Figures.Fixed(perCentimetre, 1)} pixels on a centimetre of this camera's: a crop of {CropWish.LeastSide} pixels does not fit on the sheet. Ask for a smaller print seen from nearer by.");
    }

    private static DevelopedCrops Cut(BenchAnswer answer, CropWish wish, bool isQuiet, Surroundings say)
    {
        ProgressLine? line = isQuiet ? null : new ProgressLine(say.Error, say.ErrorWidth);
        try
        {
            DevelopedCrops crops = DevelopedCrops.MakeAsync(answer, wish, DecodeWorker.Command, cache: null, BenchTelling.Steps(line), say.Stop).GetAwaiter().GetResult();
            return crops.Crops.Length > 0 ? crops : throw Refusal.NoAnswer(string.Join(" ", crops.Notes));
        }
        finally
        {
            line?.Finish();
        }
    }
}
