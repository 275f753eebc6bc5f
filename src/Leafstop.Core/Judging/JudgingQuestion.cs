namespace Leafstop.Core.Judging;

/// <summary>The two yes/no questions that carry the limits.</summary>
public enum JudgingQuestion
{
    /// <summary>"Does the noise disturb you?" Its limit is clean.</summary>
    Disturbs,

    /// <summary>"Would you put your name to this print?" Its limit is stretch.</summary>
    WouldSign,
}

/// <summary>An answer to one of them.</summary>
public enum JudgingReply
{
    /// <summary>Yes.</summary>
    Yes,

    /// <summary>No.</summary>
    No,

    /// <summary>Neither: counted as half a yes and half a no.</summary>
    Unsure,
}

/// <summary>The words of the questions.</summary>
public static class JudgingWords
{
    /// <summary>The question as it is asked.</summary>
    public static string Ask(this JudgingQuestion question) => question == JudgingQuestion.Disturbs
        ? "Does the noise disturb you?"
        : "Would you put your name to this print?";

    /// <summary>The limit that it finds: "clean" or "stretch".</summary>
    public static string Limit(this JudgingQuestion question) => question == JudgingQuestion.Disturbs ? "clean" : "stretch";

    /// <summary>How far a reply speaks against the noise: 1 entirely, 0 not at all, 0.5 for "unsure".</summary>
    internal static double Against(this JudgingQuestion question, JudgingReply reply) => reply == JudgingReply.Unsure
        ? 0.5
        : reply == JudgingReply.Yes == (question == JudgingQuestion.Disturbs) ? 1 : 0;
}
