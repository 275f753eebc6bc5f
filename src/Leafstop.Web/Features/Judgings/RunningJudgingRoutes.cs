using Leafstop.Core.Judging;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>Judging on the screen: start, look, answer, take back, end. Described in docs/json/judging.md.</summary>
internal static class RunningJudgingRoutes
{
    public static void Map(IEndpointRouteBuilder host)
    {
        host.MapPost("/api/judgings", Start);
        host.MapGet("/api/judgings", (RunningJudgings all) => Results.Ok(all.Open().Select(j => j.View()).ToArray()));
        host.MapPost("/api/judgings/{id}/resume", Resume);
        host.MapGet("/api/judgings/{id}", (string id, RunningJudgings all) => all.Find(id) is { } judging ? Results.Ok(judging.View()) : Absent(id, all));
        host.MapDelete("/api/judgings/{id}", async (string id, RunningJudgings all) => await all.EndAsync(id) ? Results.NoContent() : Unknown());
        host.MapGet("/api/judgings/{id}/trial", (string id, RunningJudgings all) => At(id, all, table =>
            table.Trial() is { } shown ? Results.Ok(TrialView.Of(id, shown)) : PlainProblems.Of(409, "This judging is over: there is nothing more to answer.")));
        host.MapGet("/api/judgings/{id}/pictures/{address}", (string id, string address, RunningJudgings all) => At(id, all, table =>
            table.Picture(address) is { } png ? Results.Bytes(png, "image/png") : PlainProblems.Of(404, "This picture belongs to a trial that is no longer shown.")));
        host.MapPost("/api/judgings/{id}/answers", Answer);
        host.MapPost("/api/judgings/{id}/undo", (string id, RunningJudgings all) => At(id, all, table =>
            table.Undo() ? Results.Ok(all.Find(id)?.View()) : PlainProblems.Of(409, "There is no answer to take back.")));
    }

    private static async Task<IResult> Start(HttpRequest request, RunningJudgings all)
    {
        (JudgingWish? wish, IResult? refusal) = await JsonBody.Read<JudgingWish>(request);
        if (wish is null)
            return refusal!;
        if (wish.Fault() is { } fault)
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
            ? Results.Ok(all.Find(id)?.View())
            : PlainProblems.Of(409, "This picture is not the one to be judged now: it was answered already, or taken back."));
    }

    internal static IResult At(string id, RunningJudgings all, Func<JudgingTable, IResult> then) => all.Find(id) is not { } judging ? Absent(id, all)
        : judging.Table is { } table ? then(table)
        : PlainProblems.Of(409, judging.View().Why ?? "The pictures are still being made.");

    private static IResult Absent(string id, RunningJudgings all) => all.IsWaiting(id)
        ? PlainProblems.Of(409, "This judging was begun earlier and is not open now: go on with it by resume.")
        : Unknown();

    private static IResult Unknown() => PlainProblems.Of(404, "There is no such judging here: it was ended, or nothing of it was kept.");
}
