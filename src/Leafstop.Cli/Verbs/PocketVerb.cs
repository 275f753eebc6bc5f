using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling.Pocket;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Kit;
using Leafstop.Storage.Places;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop pocket: one HTML file with Core in it and the person's cameras, limits, lenses, tastes and places, for where there is no signal.</summary>
internal static class PocketVerb
{
    private static readonly Option<string[]> Cameras = new("--camera") { Description = "A kept camera to take along; may be given more than once. All of them when not given.", HelpName = "NAME", Arity = ArgumentArity.OneOrMore, AllowMultipleArgumentsPerToken = false };
    private static readonly Option<string> File = new("--out") { Description = "File to write, .html; leafstop-pocket.html when not given.", HelpName = "FILE", DefaultValueFactory = _ => "leafstop-pocket.html" };
    private static readonly Option<string?> Lenses = new("--lenses") { Description = "Your lenses, such as 24,35,70 in mm; kept for the next time. \"none\" forgets them.", HelpName = "LIST" };
    private static readonly Option<string?> Tastes = new("--taste") { Description = "The streaks you like, such as 4% or \"4%,9%\" of the frame's width; kept for the next time. \"none\" forgets them.", HelpName = "LIST" };
    private static readonly Option<bool> NoPlaces = new("--no-places") { Description = "Leave places and light notes out. Where a place lies is never written in." };

    public static Command Build(Surroundings say)
    {
        Verb verb = new("pocket", "Writes one HTML file that answers in the field without a network: your cameras, limits, lenses, tastes and places are in it.",
            "leafstop pocket --print 60cm --distance 60cm --lenses 24,35,70 --taste 4% --out pocket.html",
            "leafstop pocket --camera \"Body A\" --out pocket.html",
            "leafstop pocket --clean 800 --stretch 3200 --limit-print 60cm --limit-distance 60cm")
        {
            Cameras, File, PlanOptions.Print, PlanOptions.Distance, PlanOptions.Base, PlanOptions.Clean, PlanOptions.Stretch, PlanOptions.LimitPrint, PlanOptions.LimitDistance,
            PlanOptions.Format, Lenses, Tastes, NoPlaces, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => CamerasVerb.Told(() => Write(call, say)));
        return verb;
    }

    private static void Write(ParseResult call, Surroundings say)
    {
        string file = call.GetRequiredValue(File);
        if (Path.GetExtension(file).ToLowerInvariant() is not (".html" or ".htm"))
            throw Refusal.WrongCall($"--out writes a web page: give it a name that ends in .html, not '{file}'.");
        ResultFile.CheckPlace(file, mayReplace: true);
        var written = new WrittenOptions(call, NumberReading.Marks);
        DataFile data = new(say.DataFolder(call));
        List<string> remarks = [];
        PrintCondition? print = LimitReading.Print(written, PlanNames.Print, PlanNames.Distance);
        // All is read before anything is kept: a refused call changes nothing.
        PocketCameraEntry[] cameras = [.. CamerasOf(call, written, data, print, remarks)];
        Length[]? lenses = ReadLenses(call, written);
        Streak[]? tastes = ReadTastes(call, written);
        KitStore kit = new(data);
        if (lenses is not null)
            kit.KeepLenses(lenses);
        if (tastes is not null)
            kit.KeepTastes(tastes);
        PocketContent content = new()
        {
            Page = PageOf(data, cameras),
            MadeAt = say.Clock.GetLocalNow(),
            Print = print,
            Cameras = [.. cameras],
            Lenses = kit.Lenses(),
            Tastes = kit.Tastes(),
            Places = call.GetValue(NoPlaces) ? [] : new PlaceStore(data).List(),
        };
        if (content.Cameras.Length == 0)
            remarks.Add("No camera is kept and no limits were given: the page will say which ISO closes the gap, not whether it is clean.");
        string page = PocketShell.With(PocketJson.Of(content));
        bool isQuiet = call.GetValue(say.QuietOption);
        ResultFile.Put(file, page, isQuiet, say);
        if (call.GetValue(say.JsonOption))
            say.Out.Write(PocketJson.Outcome(file, page, content));
        foreach (string remark in isQuiet ? [] : remarks)
            say.Error.WriteLine(remark);
        if (!isQuiet && !call.GetValue(say.JsonOption))
            say.Error.WriteLine($"Wrote {file}: {Say(content)}. Copy it to the phone and open it there; it asks no network.");
    }

    /// <summary>Whose page it is, in letters that say nothing of it: another machine, data folder or set of cameras gives another one, a page that is made again the same.</summary>
    private static string PageOf(DataFile data, IEnumerable<PocketCameraEntry> cameras)
    {
        string of = string.Join('\n', [Environment.MachineName, Path.GetFullPath(data.Folder), .. cameras.Select(c => c.Name).Order(StringComparer.Ordinal)]);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(of)))[..16];
    }

    private static string Say(PocketContent content)
    {
        string cameras = content.Cameras.Length switch { 0 => "no camera", 1 => content.Cameras[0].Name.Length > 0 ? content.Cameras[0].Name : "the limits you gave", int n => $"{n} cameras" };
        string places = content.Places.Length switch { 0 => "no place", 1 => "one place", int n => $"{n} places" };
        return $"{cameras}, {content.Lenses.Length switch { 0 => "no lens", 1 => "one lens", int n => $"{n} lenses" }}, {places}";
    }

    private static IEnumerable<PocketCameraEntry> CamerasOf(ParseResult call, WrittenOptions written, DataFile data, PrintCondition? print, List<string> remarks)
    {
        string folder = data.Folder;
        KeptCamera[] kept = written.Has(Cameras)
            ? [.. (call.GetValue(Cameras) ?? []).Select(name => PlanLimits.Find(name, folder).Camera!).DistinctBy(c => c.Name)]
            : [.. new CameraStore(data).List()];
        FrameFormat? format = LimitReading.Format(written);
        Iso? baseIso = LimitReading.Base(written);
        NoiseLimits? own = ReadOwn(written, print);
        if (own is not null && kept.Length > 1)
            throw Refusal.WrongCall($"--clean holds for one camera, and {kept.Length} are taken along: name the one with --camera.");
        foreach (KeptCamera camera in kept)
            yield return CameraOf(camera, baseIso, format, own, folder, print, remarks);
        if (kept.Length == 0 && own is not null)
            yield return new PocketCameraEntry("", baseIso ?? Iso.FromMarking(100), format, [new PocketLimitsEntry(own, null, "")]);
        else if (kept.Length == 0 && baseIso is not null)
            yield return new PocketCameraEntry("", baseIso, format, []);
    }

    /// <summary>A camera with its limits in the order in which plan uses them: given, own judged, worked out.</summary>
    private static PocketCameraEntry CameraOf(KeptCamera camera, Iso? baseIso, FrameFormat? format, NoiseLimits? own, string folder, PrintCondition? print, List<string> remarks)
    {
        List<PocketLimitsEntry> limits = [];
        if (own is not null)
            limits.Add(new PocketLimitsEntry(NoiseLimits.Of(own.Clean, own.Stretch, own.Tags with { Body = camera.Name }, LimitOrigin.Given), null, ""));
        // The pair that plan starts from comes first; what it refuses is left out.
        LimitUse use = PlanLimits.UseOf(camera, print);
        (OwnLimits? first, string? why) = PlanLimits.Own(camera, use, folder);
        if (why is not null)
            remarks.Add(why);
        if (first is { IsFromCard: true })
            limits.Add(new PocketLimitsEntry(first.Limits, null, ""));
        IEnumerable<OwnLimits> judged = new JudgementStore(new DataFile(folder)).Speaking(camera.Name).Select(OwnLimits.Of).Where(o => o.Limits.ForUse(use).Refusal is null);
        foreach (OwnLimits pair in judged.OrderByDescending(o => first?.Judging is { } own && own.IsSameAs(o.Judging!)))
            limits.Add(new PocketLimitsEntry(pair.Limits, pair.Judging, ""));
        if ((print ?? first?.Limits.Tags.Print) is not { } asked)
            remarks.Add($"Limits of {camera.Name} can be worked out for a print: name it with --print 60cm --distance 60cm.");
        else if (PlanLimits.Of(camera, asked, LimitTone.MidGrey) is { } known)
            limits.Add(new PocketLimitsEntry(known.Limits, null, known.Remark) { MeasuredTo = known.MeasuredTo });
        else if (first is null)
            remarks.Add(camera.ForPlan([]).WhyNoneWorkedOut);
        return new PocketCameraEntry(camera.Name, baseIso ?? PlanLimits.BaseIso(camera) ?? Iso.FromMarking(100), format, [.. limits]);
    }

    private static NoiseLimits? ReadOwn(WrittenOptions written, PrintCondition? print)
    {
        PrintCondition? of = LimitReading.Print(written, PlanNames.LimitPrint, PlanNames.LimitDistance);
        if (LimitReading.Given(written, PlanNames.LimitPrint, PlanNames.LimitDistance) is not var (clean, stretch))
            return null;
        return (of ?? print) is { } holds
            ? NoiseLimits.Of(clean, stretch, new LimitTags("", holds, ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given)
            : throw Refusal.WrongCall("A limit holds for one print: say for which with --limit-print 60cm --limit-distance 60cm.");
    }

    /// <summary>The lenses of the call; null when it names none.</summary>
    private static Length[]? ReadLenses(ParseResult call, WrittenOptions written) =>
        !written.Has(Lenses) ? null : IsNone(call.GetValue(Lenses)!) ? [] : [.. LensList.Read(Lenses.Name, call.GetValue(Lenses)!)];

    /// <summary>The tastes of the call; null when it names none.</summary>
    private static Streak[]? ReadTastes(ParseResult call, WrittenOptions written)
    {
        return !written.Has(Tastes) ? null : IsNone(call.GetValue(Tastes)!) ? [] : [.. LensList.Parts(Tastes.Name, call.GetValue(Tastes)!, "4%,9%").Select(Taste)];

        static Streak Taste(string text) => Streak.TryParse(text, out Streak streak, out string why) && streak.Percent is >= 0.01 and <= 1000
            ? streak
            : throw Refusal.WrongCall($"--taste: {(why.Length > 0 ? why : string.Create(CultureInfo.InvariantCulture, $"'{text}' is out of range: a streak is 0.01 % to 1000 % of the width."))}");
    }

    private static bool IsNone(string list) => list.Trim().Equals("none", StringComparison.OrdinalIgnoreCase);
}
