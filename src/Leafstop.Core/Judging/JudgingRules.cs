namespace Leafstop.Core.Judging;

/// <summary>When a judging has heard enough, and what it takes an answer for.</summary>
/// <remarks>The 60 answers and the third of a stop are the job's. The rest was chosen by trying it on simulated observers: docs/method/judging.md.</remarks>
public static class JudgingRules
{
    /// <summary>A question ends when the half-width of the 95 % interval is at most this, stops.</summary>
    public const double WantedHalfWidthStops = 1.0 / 3;

    /// <summary>A question ends after this many answers, blank checks counted.</summary>
    public const int MostAnswers = 60;

    /// <summary>No question ends before this many, three blocks with six blank checks: an eye that looks steady by luck is found out by then.</summary>
    public const int FewestAnswers = 30;

    /// <summary>Answers of one question in a row before the other one is asked.</summary>
    public const int Block = 10;

    /// <summary>Blank checks in a block.</summary>
    public const int BlanksInBlock = 2;

    /// <summary>A wider half-width than this is no limit but "cannot say", stops.</summary>
    /// <remarks>Not narrower: thirteen letters on paper reach about a stop, and to keep only the readings that reached it would keep those that came out low.</remarks>
    public const double WidestHalfWidthStops = 1.25;

    /// <summary>How many times likelier the answers must be with noise in play than without, before they carry a limit.</summary>
    public const double DependenceWanted = 50;

    /// <summary>Above this share of objections without cause, as all answers together tell it, there is no limit: the finger objects by itself. At least <see cref="FewestBlanksRefused"/> blank checks
    /// were refused then. Below it the share is part of the fit. The blank checks alone are too few to sort by: who was lucky with them would be let through, and read as steadier than he is.</summary>
    public const double BlanksRefused = 1.0 / 3;

    /// <summary>A single slip on a blank check is forgiven.</summary>
    public const int FewestBlanksRefused = 2;

    /// <summary>From this many standard errors on a limit is said to have moved during the session.</summary>
    public const double DriftSeen = 2;
}
