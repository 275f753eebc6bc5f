using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling.Depth;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop depth: what is sharp on the print, what to focus on, which aperture holds a depth, and focus steps.</summary>
internal static class DepthVerb
{
    public static Command Build(Surroundings say)
    {
        DepthOptions options = new();
        Verb verb = new("depth", "Tells what is sharp on the print, or the focus and aperture that hold a depth.",
            "leafstop depth --focal 24mm --aperture f/8 --focus 3.4m --at 1.8m --print 60cm --distance 60cm",
            "leafstop depth --focal 24mm --near 1.8m --far inf --print 60cm --distance 60cm",
            "leafstop depth --focal 50mm --near 1m --far inf --aperture f/8 --print 60cm --distance 60cm",
            "leafstop depth --focal 50mm --aperture 8 --focus 5m --coc 0.030mm --json")
        {
            options.Focal, options.Aperture, options.Focus, options.Near, options.Far, options.At, options.Coc, options.Print, options.Distance, options.Format,
            options.Acuity, options.Crop, options.Overlap, options.From, options.Literal, options.Why, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => Answer(call, options, say));
        return verb;
    }

    private static int Answer(ParseResult call, DepthOptions options, Surroundings say)
    {
        DepthCall asked = DepthCall.Read(call, options);
        DepthTelling telling = (asked.Focus, asked.Aperture) switch
        {
            ({ }, { } aperture) => AtFocus(asked, aperture),
            (_, { } aperture) => InSteps(asked, aperture),
            _ => ForLimits(asked),
        };
        if (call.GetValue(say.JsonOption))
            say.Out.Write(JsonText.Of(telling.Write));
        else
            say.Out.Write(DepthPage.Of(telling, say.OutWidth, call.GetValue(say.QuietOption), call.GetValue(options.Why)));
        return ExitCode.Done;
    }

    private static FocusTelling AtFocus(DepthCall asked, FNumber aperture)
    {
        SubjectDistance focus = asked.FocusFromLens();
        FocusAnswer Of(FNumber n) => FocusAnswer.Of(asked.Lens, n, focus, asked.Blur, Diffraction.GreenLight);
        // A stop wider and a stop smaller stand beside, because that is the question: would the other one do?
        FocusAnswer[] beside = [Of(FNumber.FromRatio(aperture.Ratio / Math.Sqrt(2))), Of(aperture), Of(FNumber.FromRatio(aperture.Ratio * Math.Sqrt(2)))];
        return new FocusTelling(asked, beside, asked.PointsFromLens(focus));
    }

    private static LimitsTelling ForLimits(DepthCall asked)
    {
        DepthAnswer answer = DepthAnswer.Of(asked.Demand(), asked.Blur, Diffraction.GreenLight);
        return answer.Holding is not null ? new LimitsTelling(asked, answer) : throw Refusal.NoAnswer(Impossible(asked, answer));
    }

    private static StepsTelling InSteps(DepthCall asked, FNumber aperture)
    {
        DepthDemand demand = asked.Demand();
        if (FocusAnswer.Of(asked.Lens, aperture, demand.Focus, asked.Blur, Diffraction.GreenLight).ContrastAtFocus < SharpestAperture.JustSharpContrast)
            throw Refusal.NoAnswer($"at {aperture.ToDisplay()} diffraction alone is more than passes, however many frames are taken: open the aperture.");
        try
        {
            return new StepsTelling(asked, DepthAnswer.Of(demand, asked.Blur, Diffraction.GreenLight), aperture,
                asked.IsFromMark
                    ? FocusMark.StepsFromMark(asked.Lens, asked.Near!, asked.Far!, aperture, asked.Blur.Circle, asked.Overlap.Value)
                    : FocusSteps.Plan(demand, aperture, asked.Blur.Circle, asked.Overlap.Value));
        }
        catch (ArgumentOutOfRangeException)
        {
            throw Refusal.NoAnswer($"it takes more than {FocusSteps.Most} frames at {aperture.ToDisplay()}: close the aperture, or ask for less depth.");
        }
    }

    private static string Impossible(DepthCall asked, DepthAnswer answer)
    {
        string depth = $"{asked.Near!.ToDisplay()} to {(asked.Far!.IsInfinite ? "infinity" : asked.Far.ToDisplay())}";
        FNumber wide = FNumber.FromMarking(11);
        string advice = "take less depth, a smaller print or a shorter lens";
        if (asked.Blur.Circle.Millimetres * wide.Ratio < asked.Lens.FocalLength.Millimetres)
        {
            try
            {
                int frames = FocusSteps.Plan(answer.Demand, wide, asked.Blur.Circle, asked.Overlap.Value).Frames.Length;
                advice = $"ask again with --aperture f/11 for {frames} focus steps, or {advice}";
            }
            catch (ArgumentOutOfRangeException)
            {
                // More steps than anyone takes: no advice then.
            }
        }
        return $"no aperture of a {DepthCall.Mm(asked.Lens.FocalLength)} lens holds {depth} in one frame so sharp; where the limits would be sharp enough, diffraction takes too much: {advice}.";
    }
}
