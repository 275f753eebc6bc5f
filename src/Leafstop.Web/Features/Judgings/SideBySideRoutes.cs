using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The side-by-side check of a judging: start, look, answer, take back, end. Described in docs/json/judging.md.</summary>
internal static class SideBySideRoutes
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder check = api.MapGroup("/judgings/{id}/side-by-side").WithTags("Side by side");
        check.MapPost("", Start)
            .WithName("startSideBySide").WithSummary("Starts a check whether a difference between two levels is seen at all; it gives no limit.")
            .Accepts<SideBySideWish>("application/json").Produces<SideBySideView>(201).Refuses(400, 404, 409, 413, 415, 500);
        check.MapGet("", (string id, RunningJudgings all) => At(id, all, table => Results.Ok(table.View())))
            .WithName("sideBySide").WithSummary("How far the check is, and its result.").Produces<SideBySideView>().Refuses(404);
        check.MapDelete("", (string id, RunningJudgings all) => all.Find(id) is { } judging && judging.EndSideBySide() ? Results.NoContent() : Unknown())
            .WithName("endSideBySide").WithSummary("Ends the check; nothing of it is kept.").Produces(204).Refuses(404);
        check.MapGet("/trial", (string id, RunningJudgings all) => At(id, all, table =>
                table.Trial() is { } shown ? Results.Ok(SideBySideTrialView.From(id, shown)) : PlainProblems.Of(409, "This check is over: there is nothing more to answer.")))
            .WithName("sideBySideTrial").WithSummary("The pair to judge now, the same until it is answered.").Produces<SideBySideTrialView>().Refuses(404, 409);
        check.MapGet("/pictures/{address}", (string id, string address, RunningJudgings all) => At(id, all, table =>
                table.Picture(address) is { } png ? Results.Bytes(png, "image/png") : PlainProblems.Of(404, "This picture belongs to a pair that is no longer shown.")))
            .WithName("sideBySidePicture").WithSummary("A picture of the pair that is shown now, to be drawn pixel for pixel.").Produces<Stream>(200, "image/png").Refuses(404);
        check.MapPost("/answers", Answer)
            .WithName("answerSideBySide").WithSummary("Takes an answer.").Accepts<AnswerWish>("application/json").Produces<SideBySideView>().Refuses(400, 404, 409, 413, 415);
        check.MapPost("/undo", (string id, RunningJudgings all) => At(id, all, table => table.Undo()
                ? Results.Ok(table.View())
                : PlainProblems.Of(409, "There is no answer to take back: none was given, or all were, and then the result is told.")))
            .WithName("undoSideBySide").WithSummary("Takes the last answer back.").Produces<SideBySideView>().Refuses(404, 409);
    }

    private static async Task<IResult> Start(string id, HttpRequest request, RunningJudgings all)
    {
        (SideBySideWish? wish, IResult? refusal) = await JsonBody.Read<SideBySideWish>(request);
        return wish is null ? refusal! : RunningJudgingRoutes.At(id, all, table => all.Find(id)?.StartSideBySide(wish, table) switch
        {
            ({ } started, _, _) => Results.Created($"/api/judgings/{id}/side-by-side", started.View()),
            (_, var status, var why) => PlainProblems.Of(status, why),
            null => Unknown(),
        });
    }

    private static async Task<IResult> Answer(string id, HttpRequest request, RunningJudgings all)
    {
        (AnswerWish? wish, IResult? refusal) = await JsonBody.Read<AnswerWish>(request);
        if (wish is null)
            return refusal!;
        SideReply? reply = wish.Reply switch { "left" => SideReply.Left, "right" => SideReply.Right, "unsure" => SideReply.Same, _ => null };
        if (reply is not { } said || string.IsNullOrEmpty(wish.Token))
            return PlainProblems.Of(400, "An answer has the token of its pair, and a reply: left, right or unsure.");
        return At(id, all, table => table.Answer(wish.Token, said)
            ? Results.Ok(table.View())
            : PlainProblems.Of(409, "This pair is not the one to be judged now: it was answered already, or taken back."));
    }

    private static IResult At(string id, RunningJudgings all, Func<SideBySideTable, IResult> then) => all.Find(id)?.SideBySide is { } table ? then(table) : Unknown();

    private static IResult Unknown() => PlainProblems.Of(404, "There is no such check here: it was not begun, was ended, or the host was started anew.");
}
