namespace Leafstop.Cli.CommandLine;

/// <summary>How a call ends.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Our fault.</summary>
    public const int OurFault = 1;

    /// <summary>The call is wrong.</summary>
    public const int WrongCall = 2;

    /// <summary>The input cannot answer.</summary>
    public const int NoAnswer = 3;

    /// <summary>Stopped by Ctrl-C: 128 and the number of the signal, as shells count.</summary>
    public const int Stopped = 130;
}

/// <summary>An expected end without a result: one plain sentence for stderr and the exit code.</summary>
/// <param name="code">An <see cref="ExitCode"/>.</param>
/// <param name="sentence">What is wrong and what to do.</param>
internal sealed class Refusal(int code, string sentence) : Exception(sentence)
{
    public int Code => code;

    public static Refusal WrongCall(string sentence) => new(ExitCode.WrongCall, sentence);

    public static Refusal NoAnswer(string sentence) => new(ExitCode.NoAnswer, sentence);

    /// <summary>Does it; a value that cannot be used makes the call a wrong one, in the sentence that it was refused with.</summary>
    public static T Told<T>(Func<T> doing)
    {
        try
        {
            return doing();
        }
        catch (ArgumentException wrong)
        {
            throw WrongCall(Sentence(wrong));
        }
    }

    /// <summary>What an exception says to the person, without what it says to the programmer.</summary>
    public static string Sentence(ArgumentException wrong) => wrong.Message.Split([" (Parameter", "\n"], StringSplitOptions.None)[0];
}
