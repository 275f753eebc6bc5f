using System.Globalization;
using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
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
        if (shadows?.Clean is { } dark)
            page.Paragraph($"Shadows show it first: three stops below mid-grey clean ends at ISO {dark.DialAtOrBelow().ToDisplay()}. (worked out)");
        foreach (string sentence in isQuiet ? [] : assumed)
            page.Paragraph(sentence);
        page.Polariser(plan);
        if (!isQuiet)
            page.Mind(plan);
        page.GiveUp(plan);
        page.TwoFrames(plan);
        page.Why(why);
        return page._text.ToString();
    }

    // When it fits, the one thing worth knowing of the table is what the polariser costs.
    private void Polariser(ExposurePlan plan)
    {
        if (plan.Answer.Verdict == PlanVerdict.Clean && plan.Row(GiveUpKind.Polariser) is { } row)
        {
            Paragraph($"Without the polariser: {Exactly(row)}. It costs {PlanSentences.StopsWords(row.Gained)} and you are still inside clean: keep it. ({Statement.Word(row.How)})");
        }
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
        Heading("What to give up, cheapest first");
        foreach (GiveUpRow row in plan.GiveUp)
        {
            string gained = row.Gained.Value > Stops.Hair ? $"+{PlanSentences.StopsWords(row.Gained)}" : "no stops";
            string place = plan.Answer.Verdict == PlanVerdict.Unknown ? "" : $", {PlanSentences.Place(row.Answer, plan.Limits)}";
            string alone = row.Reaches is { } reached ? $" This alone reaches {(reached == PlanVerdict.Clean ? "clean" : "stretch")}." : "";
            Item($"{row.Words}: {gained}, {Exactly(row)}{place}.{alone} Costs: {row.Cost} ({Statement.Word(row.How)})");
        }
    }

    private void TwoFrames(ExposurePlan plan)
    {
        // Where a lull lets one frame do both, the caution has said so.
        if (plan.TwoFrames is not { } two || (!two.NeedsTwo && two.IsFeasible != false))
            return;
        Heading("One frame for the water, one for the leaves");
        Item($"Water: {two.Water.ToDisplay()}, {Where(two.Water, plan)}.");
        Item($"Leaves: {two.Leaves.ToDisplay()}, {Where(two.Leaves, plan)}.");
        Paragraph($"Same aperture, focus, white balance and polariser; tripod untouched. Across the mask the leaves have {PlanSentences.StopsWords(two.NoiseMismatch)} less light. (worked out)");
        if (two.Instead.IsEmpty)
            return;
        Paragraph(two.IsFeasible == false ? "One of them is past stretch. Instead:" : "Or:");
        foreach (RecipeFrame frame in two.Instead)
            Item($"{char.ToUpperInvariant(frame.For[0])}{frame.For[1..]}: {frame.ToDisplay()}, {Where(frame, plan)}.{Smear(frame, plan.Scene)}");
    }

    // A lull is no promise: how far the leaves go at that shutter in the wind that was named.
    private static string Smear(RecipeFrame frame, Scene scene) => frame.For.StartsWith("leaves", StringComparison.Ordinal)
        && scene is { Leaves: { } leaves, PrintAsked: { } print }
        ? string.Create(CultureInfo.InvariantCulture, $" In the wind as it is leaves smear {leaves.Smear(frame.Shutter, print, scene.WidthKept).OnPrint.Millimetres:0.00} mm there: it wants a lull deep enough.")
        : "";

    private void Why(IReadOnlyList<Statement> why)
    {
        if (why.Count == 0)
            return;
        Heading("Why");
        foreach (Statement statement in why)
            Item(statement.Known is { } known ? $"{statement.Text} ({Statement.Word(known)})" : statement.Text);
    }

    private static string Where(RecipeFrame frame, ExposurePlan plan) => PlanSentences.Place(frame.Answer, plan.Limits);

    private static string Exactly(GiveUpRow row)
    {
        if (row.Answer.Gap.Value < -Stops.Hair)
            return $"base ISO with {PlanSentences.StopsWords(-row.Answer.Gap)} of light over";
        Iso exact = row.Answer.Iso;
        string shown = Math.Round(exact.Speed).ToString("0", CultureInfo.InvariantCulture);
        return row.Iso.Dial.ToDisplay() == shown ? $"ISO {shown}" : $"ISO {shown} (dial {row.Iso.Dial.ToDisplay()})";
    }

    private void Heading(string text) => _text.Append('\n').Append(text).Append('\n');

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
