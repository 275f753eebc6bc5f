using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper.Card;
using Leafstop.Cli.Telling.Card;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop card: the card for the pocket, on paper, with ladder, tables and a code that carries camera and limits.</summary>
internal static class CardVerb
{
    public static Command Build(Surroundings say)
    {
        Verb verb = new("card", "Writes a pocket card to print: the ladder from gap to ISO with your limits, what to give up, tables for your lenses, and a code that carries camera and limits.",
            "leafstop card --camera \"Body A\" --lenses 24,35,70 --out card.pdf",
            "leafstop card --print 90cm --distance 60cm --size wallet --out card.pdf",
            "leafstop card --camera \"Body A\" --clean 800 --stretch 3200 --limit-print 60cm --limit-distance 60cm --out card.pdf");
        foreach (Option option in CardOptions.All)
            verb.Options.Add(option);
        verb.Options.Add(say.JsonOption);
        verb.Options.Add(say.QuietOption);
        verb.SetAction(call => Write(call, say));
        return verb;
    }

    private static int Write(ParseResult call, Surroundings say)
    {
        string file = call.GetRequiredValue(CardOptions.File);
        if (!Path.GetExtension(file).Equals(".pdf", StringComparison.OrdinalIgnoreCase))
            throw Refusal.WrongCall($"--out writes a PDF: give it a name that ends in .pdf, not '{file}'.");
        ResultFile.CheckPlace(file, mayReplace: true);
        CardCall asked = CardCall.Read(call, say);
        ResultFile.Put(file, CardDocument.Make(asked.Card, asked.Sheet), call.GetValue(say.QuietOption), say);
        if (call.GetValue(say.JsonOption))
            say.Out.Write(CardTelling.Json(asked.Card, asked.Sheet, file, asked.Assumed));
        else
            say.Out.Write(CardTelling.Text(asked.Card, asked.Sheet, file, call.GetValue(say.QuietOption) ? [] : asked.Assumed, say.OutWidth));
        return ExitCode.Done;
    }
}
