using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The plots of the report, each with a sentence and its numbers.</summary>
public static class PlotSections
{
    /// <summary>Writes all plots that have something to show.</summary>
    public static void Write(Markup page, BenchAnswer answer)
    {
        Level[] curves = [.. answer.Levels.Where(l => TransferPlot.Visible(l).Any())];
        Level? main = Largest(curves, answer);
        TransferPlot? transfer = main is null ? null : new TransferPlot(curves);
        var plots = new LevelPlots(answer);
        bool noise = plots.HasReadNoise;
        bool range = plots.HasRange;
        bool correlation = plots.HasCorrelation;
        if (main is not null || noise)
        {
            page.Open("section", ("class", "two"));
            if (main is not null)
            {
                Figure(page, $"Noise against light, {Figures.Name(main.Iso)}", () =>
                {
                    transfer!.Draw(page, main, isMain: true);
                    Caption(page, "Raw units both ways, ruled in stops, with 95\u00A0% intervals where they are larger than the point. The points leave the “light alone” line where read noise takes over.", Core.Quantities.HowKnown.Measured);
                    TransferPlot.Numbers(page, main);
                });
            }

            if (noise)
            {
                Figure(page, answer.GainSteps.Length > 0 ? "Read noise and the step" : "Read noise against ISO", () =>
                    plots.ReadNoise(page, () => Legend(page, answer, "Electrons against ISO, with 95\u00A0% intervals.", Core.Quantities.HowKnown.Measured)));
            }

            page.Close().Line();
        }

        if (range || correlation)
        {
            page.Open("section", ("class", "two"));
            if (range)
                Figure(page, "Range against ISO", () =>
                    plots.Range(page, () => Legend(page, answer, "Stops from read noise to clip, with the interval of the read noise.", Core.Quantities.HowKnown.WorkedOut)));
            if (correlation)
                Figure(page, "Do neighbouring pixels agree?", () =>
                    plots.Correlation(page, () => Legend(page, answer, "Honest noise is near 0. From 0.05 the camera has smoothed it, and its figure is too low.", Core.Quantities.HowKnown.Measured)));
            page.Close().Line();
        }

        Level[] others = [.. curves.Where(l => l != main)];
        if (others.Length > 0)
            Others(page, others, transfer!);
    }

    private static void Others(Markup page, Level[] others, TransferPlot transfer)
    {
        page.Open("section").Element("h2", "Noise against light, the other levels");
        page.Open("div", ("class", "small"));
        foreach (Level level in others)
        {
            page.Open("figure").Element("h3", level.Usable ? Figures.Name(level.Iso) : $"{Figures.Name(level.Iso)}, left off");
            transfer.Draw(page, level, isMain: false);
            TransferPlot.Numbers(page, level);
            page.Close();
        }

        page.Close();
        page.Element("p", "The numbers of these points fold out on the screen and are in the JSON; they are not printed.", ("class", "paper-only"));
        page.Close().Line();
    }

    /// <summary>The level to stop at where there is one, else the middle of the usable ones.</summary>
    private static Level? Largest(Level[] curves, BenchAnswer answer)
    {
        Level[] usable = [.. curves.Where(l => l.Usable).OrderBy(l => l.Iso)];
        return usable.FirstOrDefault(l => l.Iso == answer.StopAt) ?? (usable.Length > 0 ? usable[usable.Length / 2] : curves.FirstOrDefault());
    }

    private static void Figure(Markup page, string heading, Action content)
    {
        page.Open("figure").Element("h2", heading, ("class", "h2"));
        content();
        page.Close().Line();
    }

    private static void Caption(Markup page, string text, HowKnown known) => page.Open("figcaption").Say(new Statement(text, known)).Close();

    private static void Legend(Markup page, BenchAnswer answer, string text, HowKnown known)
    {
        string open = BenchVerdict.Reshoot(answer).Count > 0 ? " Open circle: reshoot." : "";
        string cross = answer.Levels.Any(l => !l.Usable) ? " Cross: left off." : "";
        Caption(page, text + open + cross, known);
    }
}
