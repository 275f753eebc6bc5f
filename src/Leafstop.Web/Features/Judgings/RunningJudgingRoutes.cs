using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>Judging on the screen: start, look, answer, take back, end. Described in docs/json/judging.md.</summary>
internal static class RunningJudgingRoutes
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder judgings = api.MapGroup("/judgings").WithTags("Judging");
        judgings.MapPost("", Start)
            .WithName("startJudging").WithSummary("Starts a judging.").Accepts<JudgingWish>("application/json").Produces<RunningJudgingView>(202).Refuses(400, 409, 413, 415, 500);
        judgings.MapGet("", (RunningJudgings all) => Results.Ok(all.Open().Select(j => j.View()).ToArray()))
            .WithName("listOpenJudgings").WithSummary("The judgings that are open, failed ones too.").Produces<RunningJudgingView[]>();
        judgings.MapPost("/{id}/resume", Resume)
            .WithName("resumeJudging").WithSummary("Goes on with a judging that was begun earlier.").Produces<RunningJudgingView>(202).Refuses(404, 409, 500);
        judgings.MapGet("/{id}", (string id, RunningJudgings all) => all.Find(id) is { } judging ? Results.Ok(judging.View()) : Absent(id, all))
            .WithName("judging").WithSummary("How far a judging is.").Produces<RunningJudgingView>().Refuses(404, 409, 500);
        judgings.MapDelete("/{id}", async (string id, RunningJudgings all) => await all.EndAsync(id) ? Results.NoContent() : Unknown())
            .WithName("endJudging").WithSummary("Ends a judging and its decoding; answers that were kept stay.").Produces(204).Refuses(404);
        judgings.MapGet("/{id}/trial", (string id, RunningJudgings all) => At(id, all, table =>
                table.Trial() is { } shown ? Results.Ok(shown.View(id)) : PlainProblems.Of(409, "This judging is over: there is nothing more to answer.")))
            .WithName("trial").WithSummary("What to judge now, the same until it is answered.").Produces<TrialView>().Refuses(404, 409, 500);
        judgings.MapGet("/{id}/pictures/{address}", (string id, string address, RunningJudgings all) => At(id, all, table =>
                table.Picture(address) is { } png ? Results.Bytes(png, "image/png") : PlainProblems.Of(404, "This picture belongs to a trial that is no longer shown.")))
            .WithName("trialPicture").WithSummary("A picture of the trial that is shown now, to be drawn pixel for pixel.").Produces<Stream>(200, "image/png").Refuses(404, 409, 500);
        judgings.MapPost("/{id}/answers", Answer)
            .WithName("answer").WithSummary("Takes and keeps an answer.").Accepts<AnswerWish>("application/json").Produces<RunningJudgingView>().Refuses(400, 404, 409, 413, 415, 500);
        judgings.MapPost("/{id}/undo", (string id, RunningJudgings all) => At(id, all, table =>
                table.Undo() ? Results.Ok(Standing(id, all, table)) : PlainProblems.Of(409, "There is no answer to take back.")))
            .WithName("undoAnswer").WithSummary("Takes the last answer back.").Produces<RunningJudgingView>().Refuses(404, 409, 500);
    }

    private static async Task<IResult> Start(HttpRequest request, RunningJudgings all, NamedFolders named)
    {
        (JudgingWish? wish, IResult? refusal) = await JsonBody.Read<JudgingWish>(request);
        if (wish is null)
            return refusal!;
        if (wish.Fault(named) is { } fault)
            return PlainProblems.Of(400, fault);
        return all.Start(wish) is { } judging
            ? Results.Accepted($"/api/judgings/{judging.Id}", judging.View())
            : PlainProblems.Of(409, RunningJudgings.TooMany);
    }

    private static async Task<IResult> Resume(string id, RunningJudgings all)
    {
        (RunningJudging? judging, int status, string why) = await all.ResumeAsync(id);
        return judging is null ? PlainProblems.Of(status, why) : Results.Accepted($"/api/judgings/{id}", judging.View());
    }

    private static async Task<IResult> Answer(string id, HttpRequest request, RunningJudgings all)
    {
        (AnswerWish? wish, IResult? refusal) = await JsonBody.Read<AnswerWish>(request);
        if (wish is null)
            return refusal!;
        JudgingReply? reply = wish.Reply switch { "yes" => JudgingReply.Yes, "no" => JudgingReply.No, "unsure" => JudgingReply.Unsure, _ => null };
        if (reply is not { } said || string.IsNullOrEmpty(wish.Token))
            return PlainProblems.Of(400, "An answer has the token of its trial, and a reply: yes, no or unsure.");
        return At(id, all, table => table.Answer(wish.Token, said)
            ? Results.Ok(Standing(id, all, table))
            : PlainProblems.Of(409, "This picture is not the one to be judged now: it was answered already, or taken back."));
    }

    private static RunningJudgingView? Standing(string id, RunningJudgings all, JudgingTable table) => all.Find(id)?.View() is { } view ? view with { Next = table.Trial()?.View(id) } : null;

    internal static IResult At(string id, RunningJudgings all, Func<JudgingTable, IResult> then) => all.Find(id) is not { } judging ? Absent(id, all)
        : judging.Table is { } table ? then(table)
        : PlainProblems.Of(409, judging.View().Why ?? "The pictures are still being made.");

    private static IResult Absent(string id, RunningJudgings all) => all.IsWaiting(id)
        ? PlainProblems.Of(409, "This judging was begun earlier and is not open now: go on with it by resume.")
        : Unknown();

    private static IResult Unknown() => PlainProblems.Of(404, "There is no such judging here: it was ended, or nothing of it was kept.");
}
