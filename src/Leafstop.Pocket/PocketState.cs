using Leafstop.Core.Motion;

namespace Leafstop.Pocket;

/// <summary>What the page remembers: all that was set, never an answer. Lengths in mm, speeds in m/s, times in s.</summary>
internal sealed class PocketState
{
    public string Screen { get; set; } = "gap";

    /// <summary>The screen without the part of it that is shown.</summary>
    public string ScreenName => Screen.IndexOf(':', StringComparison.Ordinal) is >= 0 and int end ? Screen[..end] : Screen;

    public string Camera { get; set; } = "";
    public string Limits { get; set; } = "";
    public double Aperture { get; set; } = Math.Pow(2, 3.5);
    public double Shutter { get; set; } = 0.25;

    /// <summary>EV100 through every filter that is on; null until a camera tells where base lies: then there is no gap.</summary>
    public double? Light { get; set; }

    public bool Polariser { get; set; }

    /// <summary>Stops of the brightest foam over mid-grey; null when not said.</summary>
    public double? Foam { get; set; }

    public double? PrintWidth { get; set; }
    public double? PrintDistance { get; set; }
    public int Frames { get; set; } = 1;
    public string Place { get; set; } = "";
    public double Focal { get; set; } = 24;
    public bool DepthOn { get; set; }
    public double Near { get; set; } = 1800;
    public double Far { get; set; } = double.PositiveInfinity;
    public bool WaterOn { get; set; }
    public double WaterDistance { get; set; } = 6000;
    public double WaterSpeed { get; set; } = 1;
    public double Taste { get; set; } = 4;
    public string Leaves { get; set; } = "";

    /// <summary>Smear seen on the print, mm, at <see cref="SmearShutter"/>.</summary>
    public double Smear { get; set; } = 0.33;

    public double SmearShutter { get; set; } = 1.0 / 64;
    public int Force { get; set; } = 2;
    public WindSite Site { get; set; } = WindSite.Stand;
    public double LeafDistance { get; set; } = 10_000;
    public double SecondShutter { get; set; } = 1.0 / 128;

    /// <summary>Keep and no of a trial, "knnk".</summary>
    public string Trial { get; set; } = "";

    /// <summary>Light readings: milliseconds of 1970 and EV100, oldest first.</summary>
    public List<(double At, double Ev)> Readings { get; } = [];

    /// <summary>When the place has to be left, milliseconds of 1970; null when nothing was said.</summary>
    public double? LeaveAt { get; set; }

    /// <summary>What is in the bag before leaving.</summary>
    public HashSet<string> Ticks { get; } = [];

    public double ScreenInches { get; set; } = 3;
    public double ScreenDistance { get; set; } = 300;
    public int Clicks { get; set; }

    /// <summary>What was tried from the give-up table, and what it costs; empty when nothing was.</summary>
    public string Tried { get; set; } = "";

    public string TriedCost { get; set; } = "";

    /// <summary>What stood before it was tried.</summary>
    public PocketBefore? Before { get; set; }

    /// <summary>The text of a card that was taken over; empty when none was.</summary>
    public string Card { get; set; } = "";

    public double? OwnClean { get; set; }
    public double? OwnStretch { get; set; }
    public double OwnBase { get; set; } = 100;
    public double OwnPrint { get; set; } = 600;
    public double OwnDistance { get; set; } = 600;

    public bool LeftHand { get; set; }
    public bool Sun { get; set; }
    public bool Dim { get; set; }
    public bool Vibrate { get; set; }
}

/// <summary>What a tried row may have changed.</summary>
internal sealed record PocketBefore(double Aperture, double Shutter, double? Light, bool Polariser, double? PrintWidth, double? PrintDistance, int Frames);
