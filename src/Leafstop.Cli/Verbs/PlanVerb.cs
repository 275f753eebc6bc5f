using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Planning;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop plan: what ISO closes the gap, whether it is inside the limits, and what to give up when it is not.</summary>
internal static class PlanVerb
{
    public static Command Build(Surroundings say)
    {
        Verb verb = new("plan", "Tells what ISO an exposure needs, whether that is inside your limits, and what is cheapest to give up.",
            "leafstop plan --aperture 11 --shutter 1/4 --under \"2 1/3\" --filter \"polariser 1.5\" --clean 800 --stretch 3200 --limit-print 60cm --limit-distance 60cm --foam 2.7",
            "leafstop plan --aperture 8 --shutter 1/125 --ev 9 --filter polariser --camera \"Body A\" --print 60cm --distance 60cm",
            "leafstop plan --aperture 11 --shutter 1/4 --meter \"f/8 1/30 ISO 400\" --near 1.8m --far inf --focal 24mm --print 60cm --distance 60cm");
        foreach (Option option in PlanOptions.All.Concat(PlanLight.Options))
            verb.Options.Add(option);
        verb.Options.Add(say.JsonOption);
        verb.Options.Add(say.QuietOption);
        verb.SetAction(call => Run(call, say));
        return verb;
    }

    private static int Run(ParseResult call, Surroundings say)
    {
        PlanReading asked = PlanCall.Read(call, say);
        ExposurePlan plan;
        try
        {
            plan = Planner.Plan(asked.Scene);
        }
        catch (ArgumentOutOfRangeException wrong)
        {
            throw Refusal.NoAnswer(Refusal.Sentence(wrong));
        }
        say.Out.Write(call.GetValue(say.JsonOption)
            ? PlanJson.Of(plan, asked.Assumed)
            : PlanText.Of(plan, asked.Assumed, asked.Shadows, call.GetValue(PlanOptions.Why) ? PlanWhy.Of(plan, PlanCall.Numbers(call)) : [], call.GetValue(say.QuietOption), say.OutWidth));
        return ExitCode.Done;
    }
}
