using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Telling;

/// <summary>A plan in words: verdict first, number second, how sure third, then what to mind and what to give up.</summary>
internal sealed class PlanText
{
    private const int Widest = 100;

    private readonly StringBuilder _text = new();
    private readonly int _width;

    private PlanText(int? columns) => _width = Math.Clamp((columns ?? Widest + 1) - 1, 40, Widest);

    /// <summary>The whole answer.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="assumed">What it rests on though nobody said it.</param>
    /// <param name="shadows">The camera's limits three stops below mid-grey; null when not known.</param>
    /// <param name="why">Further lines for --why; empty without.</param>
    /// <param name="isQuiet">True to leave out what was assumed and what to mind.</param>
    /// <param name="columns">Columns of the terminal; null in a pipe.</param>
    public static string Of(ExposurePlan plan, IReadOnlyList<string> assumed, NoiseLimits? shadows, IReadOnlyList<Statement> why, bool isQuiet, int? columns)
    {
        PlanText page = new(columns);
        PlanSentences words = PlanSentences.Of(plan);
        page.Paragraph(words.Verdict);
        page.Paragraph(words.Second);
        page.Paragraph(words.HowSure);
        page.Say(PlanWords.Shadows(shadows));
        foreach (string sentence in isQuiet ? [] : assumed)
            page.Paragraph(sentence);
        page.Say(PlanWords.Polariser(plan));
        if (!isQuiet)
            page.Mind(plan);
        page.GiveUp(plan);
        page.TwoFrames(plan);
        page.Why(why);
        return page._text.ToString();
    }

    private void Mind(ExposurePlan plan)
    {
        if (plan.Cautions.IsEmpty)
            return;
        Heading("Mind");
        foreach (Caution caution in plan.Cautions)
            Item(caution.How is { } how ? $"{caution.Text} ({Statement.Word(how)})" : caution.Text);
    }

    private void GiveUp(ExposurePlan plan)
    {
        if (plan.Answer.Verdict == PlanVerdict.Clean || plan.GiveUp.IsEmpty)
            return;
        Heading(PlanWords.GiveUpHeading);
        foreach (GiveUpRow row in plan.GiveUp)
        {
            string place = plan.Answer.Verdict == PlanVerdict.Unknown ? "" : $", {PlanSentences.Place(row.Answer, plan.Limits)}";
            string alone = PlanWords.Alone(row) is { Length: > 0 } reached ? " " + reached : "";
            Item($"{row.Words}: {PlanWords.Gained(row)}, {PlanWords.Exactly(row)}{place}.{alone} Costs: {row.Cost} ({Statement.Word(row.How)})");
        }
    }

    private void TwoFrames(ExposurePlan plan)
    {
        if (!PlanWords.HasRecipe(plan))
            return;
        TwoFrameRecipe two = plan.TwoFrames!;
        Heading(PlanWords.TwoFramesHeading);
        Item(PlanWords.Frame(two.Water, plan));
        Item(PlanWords.Frame(two.Leaves, plan));
        Say(PlanWords.TwoFrames(two));
        if (two.Instead.IsEmpty)
            return;
        Paragraph(PlanWords.InsteadOf(two));
        foreach (RecipeFrame frame in two.Instead)
            Item($"{PlanWords.Frame(frame, plan)}{PlanWords.Smear(frame, plan.Scene)}");
    }

    private void Why(IReadOnlyList<Statement> why)
    {
        if (why.Count == 0)
            return;
        Heading("Why");
        foreach (Statement statement in why)
            Item(statement.Known is { } known ? $"{statement.Text} ({Statement.Word(known)})" : statement.Text);
    }

    private void Heading(string text) => _text.Append('\n').Append(text).Append('\n');

    private void Say(Statement? statement)
    {
        if (statement is not null)
            Paragraph($"{statement.Text} ({Statement.Word(statement.Known!.Value)})");
    }

    private void Paragraph(string text)
    {
        if (text.Length > 0)
            Lines(TextColumns.Wrap(OneLine.Of(text), _width));
    }

    private void Item(string text) => Lines(TextColumns.Wrap($"- {OneLine.Of(text)}", _width, 2));

    private void Lines(IEnumerable<string> lines)
    {
        foreach (string line in lines)
            _text.Append(BenchText.Plain(line)).Append('\n');
    }
}
