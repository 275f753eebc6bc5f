using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Pocket.Data;
using Leafstop.Pocket.Screens;

namespace Leafstop.Pocket;

/// <summary>The page in use: what was written into it, what was set, and what Core says of both.</summary>
internal sealed class PocketPage
{
    /// <summary>Light readings that are remembered.</summary>
    public const int MostReadings = 12;

    /// <summary>The name of the camera that stands for numbers typed in here.</summary>
    public const string OwnName = "your own numbers";

    private ExposurePlan? _plan;
    private string _refusal = "";
    private (string Text, PocketCamera? Camera) _card = ("", null);

    public PocketPage(PocketData data, PocketState state)
    {
        (Data, State) = (data, state);
        State.Light ??= ExposureGap.LightWhen(default, Aperture, Shutter, BaseIso).Value;
        if (!ScreenNames.Contains(State.ScreenName))
            State.Screen = "gap";
    }

    public PocketData Data { get; }

    public PocketState State { get; }

    /// <summary>Height of the window, px.</summary>
    public int Height { get; set; } = 844;

    /// <summary>The time, as of the last tap or waking.</summary>
    public Moment Now { get; private set; }

    /// <summary>A remark on what was just pressed, shown once; empty when there is none.</summary>
    public string Remark { get; set; } = "";

    /// <summary>The text of a card that was refused, so that it can be mended; shown once, like the remark.</summary>
    public string Draft { get; set; } = "";

    public FNumber Aperture => FNumber.FromRatio(State.Aperture);

    public ShutterTime Shutter => ShutterTime.FromSeconds(State.Shutter);

    /// <summary>The camera that is meant; null when the page knows none and no numbers were typed in.</summary>
    public PocketCamera? Camera
    {
        get
        {
            IReadOnlyList<PocketCamera> all = Cameras;
            foreach (PocketCamera camera in all)
            {
                if (camera.Name == State.Camera)
                    return camera;
            }
            return all.Count > 0 ? all[0] : null;
        }
    }

    /// <summary>Every camera there is to choose from: those that were written in, that of a card, the person's own numbers.</summary>
    public IReadOnlyList<PocketCamera> Cameras
    {
        get
        {
            List<PocketCamera> all = [.. Data.Cameras];
            if (CardCamera is { } card)
                all.Add(card);
            if (Own is { } own)
                all.Add(own);
            return all;
        }
    }

    /// <summary>The camera of the card that was taken over; null when none was.</summary>
    public PocketCamera? CardCamera
    {
        get
        {
            if (_card.Text != State.Card)
                _card = (State.Card, CardEntry.Camera(State.Card));
            return _card.Camera;
        }
    }

    public Iso BaseIso => Camera?.BaseIso ?? Iso.FromSpeed(State.OwnBase);

    public FrameFormat Format => Camera?.Format ?? FrameFormat.FullFrame;

    /// <summary>The limits that are meant, for the print they were found for; null when none are known.</summary>
    public PocketLimits? Limits => Camera is not { Limits: { Count: > 0 } all } ? null : State.Limits.Length == 0 ? all[0] : all.FirstOrDefault(l => l.Key == State.Limits) ?? all[0];

    /// <summary>The print that is asked; null when neither the page nor the limits name one.</summary>
    public PrintCondition? Print => Asked ?? Limits?.Limits.Tags.Print;

    public Stops Gap => ExposureGap.Of(Aperture, Shutter, ExposureValue.Of(State.Light!.Value), BaseIso);

    public Lens Lens => Lens.Of(Length.FromMillimetres(State.Focal));

    /// <summary>The plan; null when aperture, shutter and light lie too far apart for one.</summary>
    public ExposurePlan? Plan
    {
        get
        {
            if (_plan is null && _refusal.Length == 0)
            {
                try
                {
                    _plan = Planner.Plan(Scene());
                }
                catch (ArgumentOutOfRangeException wrong)
                {
                    _refusal = OwnWords(wrong);
                }
            }
            return _plan;
        }
    }

    /// <summary>The sentence that was thrown, without what the runtime puts after it: that names code, and in a page without the runtime's texts it names their keys.</summary>
    public static string OwnWords(ArgumentOutOfRangeException wrong)
    {
        // What the runtime adds is what it makes of no sentence at all, in whatever form it has here.
        string added = new ArgumentOutOfRangeException(wrong.ParamName, wrong.ActualValue, "").Message;
        return (wrong.Message.EndsWith(added, StringComparison.Ordinal) ? wrong.Message[..^added.Length] : wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]).TrimEnd();
    }

    /// <summary>Why there is no plan.</summary>
    public string Refusal => _refusal;

    private static readonly string[] ScreenNames = ["gap", "pick", "water", "leaves", "wind", "light", "leave", "more", "depth", "keep", "pair", "leaving", "zoom", "print", "place", "camera", "look", "own", "card"];

    private PocketCamera? Own => State.OwnClean is null && State.OwnStretch is null ? null : new PocketCamera(OwnName, Iso.FromSpeed(State.OwnBase), null,
    [
        new PocketLimits(
            NoiseLimits.Of(
                State.OwnClean is { } clean ? Iso.FromSpeed(clean) : null, State.OwnStretch is { } stretch ? Iso.FromSpeed(stretch) : null,
                new LimitTags("", new PrintCondition(State.OwnPrint, State.OwnDistance), ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given),
            "", ""),
    ]);

    private PrintCondition? Asked => State is { PrintWidth: { } width, PrintDistance: { } distance } ? new PrintCondition(width, distance) : Data.Print;

    /// <summary>What is asked of Core.</summary>
    public Scene Scene() => new()
    {
        Aperture = Aperture,
        Shutter = Shutter,
        Metered = ExposureValue.Of(State.Light!.Value),
        BaseIso = BaseIso,
        FiltersOn = State.Polariser ? new FilterSet([Filter.Parse("polariser")]) : FilterSet.None,
        Limits = Limits?.Limits,
        Print = Asked,
        FramesAveraged = State.Frames,
        FoamOverMidGrey = State.Foam is { } foam ? Stops.Of(foam) : null,
        Depth = DepthWish,
        Water = State.WaterOn ? WaterWish : null,
        Leaves = LeavesWish,
        Trial = LeavesWish is not null && State.Trial.Length > 0 ? Trial : null,
    };

    /// <summary>Depth as it is asked for; null when it is not, or cannot be.</summary>
    public DepthWish? DepthWish => State.DepthOn && State.Near > State.Focal && State.Near < State.Far ? DepthAt(State.Near, State.Far) : null;

    /// <summary>Depth between two distances, mm.</summary>
    public DepthWish DepthAt(double near, double far) =>
        new(DepthDemand.Of(Lens, SubjectDistance.FromMillimetres(near), SubjectDistance.FromMillimetres(far)), Format);

    public WaterView? WaterView => State.WaterDistance > State.Focal ? Core.Motion.WaterView.Of(Lens, SubjectDistance.FromMillimetres(State.WaterDistance), Format) : null;

    public Speed WaterSpeed => Speed.FromMetresPerSecond(State.WaterSpeed);

    public WaterWish? WaterWish => WaterView is { } view ? Core.Planning.WaterWish.For(view, WaterSpeed, Streak.FromPercent(State.Taste)) : null;

    public KeeperTrial Trial => KeeperTrial.Of(State.Trial.Count(c => c == 'k'), State.Trial.Length);

    /// <summary>The leaves as a trial or the wind tells them; null when they are not asked for.</summary>
    public LeavesWish? LeavesWish
    {
        get
        {
            if (State.Leaves.Length == 0 || State.LeafDistance <= State.Focal)
                return null;
            var subject = MovingSubject.Of(Lens, SubjectDistance.FromMillimetres(State.LeafDistance));
            if (State.Leaves == "wind")
                return new LeavesWish(subject, PeakInWind, Format, HowKnown.RuleOfThumb);
            if (Print is not { } print)
                return null;
            double enlargement = JudgedPrint.Of(Format, Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm)).Enlargement;
            Speed seen = subject.SpeedFrom(Length.FromMillimetres(State.Smear / enlargement), ShutterTime.FromSeconds(State.SmearShutter)) ?? default;
            return new LeavesWish(subject, new SpeedBand(seen, seen, seen), Format, HowKnown.Measured);
        }
    }

    /// <summary>A leaf of 5 cm at the height of its swing in the middle of the wind force that was picked.</summary>
    private SpeedBand PeakInWind
    {
        get
        {
            Beaufort force = Beaufort.All[State.Force];
            var wind = Speed.FromMetresPerSecond((force.From.MetresPerSecond + force.To.MetresPerSecond) / 2);
            SpeedBand leaf = LeafSpeed.From(WindAtLeaf.From(wind, State.Site), Length.FromCentimetres(5));
            return LeafSpeed.AtPeak(leaf);
        }
    }

    /// <summary>Says how far under the meter reads at this aperture and shutter: that fixes the light.</summary>
    public void SetUnder(Stops under) => State.Light = Math.Clamp(ExposureGap.LightWhen(under, Aperture, Shutter, BaseIso).Value, -20, 30);

    public void SetPrint(double? width, double? distance)
    {
        PrintCondition now = Print ?? new PrintCondition(600, 600);
        (State.PrintWidth, State.PrintDistance) = (width ?? now.WidthMm, distance ?? now.ViewingDistanceMm);
    }

    /// <summary>Takes limits that were typed in; the other one moves along rather than contradict.</summary>
    public void SetOwn(double? clean, double? stretch)
    {
        PrintCondition print = Print ?? new PrintCondition(600, 600);
        double low = clean ?? State.OwnClean ?? 800, high = stretch ?? State.OwnStretch ?? 3200;
        if (clean is not null)
            high = Math.Max(high, low);
        else
            low = Math.Min(low, high);
        (State.OwnClean, State.OwnStretch, State.OwnPrint, State.OwnDistance, State.Camera) = (low, high, print.WidthMm, print.ViewingDistanceMm, OwnName);
    }

    /// <summary>Does what a button says.</summary>
    public void Press(string act, string value, Moment now)
    {
        (Remark, Draft) = ("", "");
        Now = now;
        PocketActs.Do(this, act, value, now);
        (_plan, _refusal) = (null, "");
    }

    /// <summary>The page for the script: one line of JSON, then the HTML as it is.</summary>
    public string Show(Moment now, bool keeps)
    {
        Now = now;
        DropOldExit();
        string html = Screen(now, keeps);
        return new JsonWriting().Open('{').Text("say", GapWords.Spoken(this)).Text("screen", State.Screen).Text("theme", State.Sun ? "sun" : "night")
            .Text("hand", State.LeftHand ? "left" : "right").Truth("dim", State.Dim).Truth("vibrate", State.Vibrate).Truth("runs", State.Screen == "light" || State.LeaveAt is not null)
            .Text("state", PocketStateText.Write(State)).Close('}') + "\n" + html;
    }

    /// <summary>An exit time that is long past belongs to another day.</summary>
    private void DropOldExit()
    {
        if (State.LeaveAt is { } leave && Now.Milliseconds - leave > LeaveScreen.Forgotten.TotalMilliseconds)
            State.LeaveAt = null;
    }

    private string Screen(Moment now, bool keeps)
    {
        return State.ScreenName switch
        {
            "pick" when State.Screen.Split(':') is { Length: > 1 } where && Dials.Named(where[1]) is { } dial =>
                PickScreen.Of(this, dial, where.Length > 2 && int.TryParse(where[2], CultureInfo.InvariantCulture, out int page) ? page : 0),
            "water" => WaterScreen.Of(this),
            "leaves" => LeavesScreen.Of(this),
            "wind" => WindScreen.Of(this),
            "light" => LightScreen.Of(this, now),
            "leave" => LeaveScreen.Of(this),
            "more" => MoreScreen.Of(this),
            "depth" => DepthScreen.Of(this),
            "keep" => KeepScreen.Of(this),
            "pair" => PairScreen.Of(this),
            "leaving" => LeavingScreen.Of(this),
            "zoom" => ZoomScreen.Of(this),
            "print" => PrintScreen.Of(this),
            "place" => PlaceScreen.Of(this),
            "camera" => CameraScreen.Of(this),
            "look" => LookScreen.Of(this, keeps),
            "own" => OwnScreen.Of(this),
            "card" => CardScreen.Of(this),
            _ => GapScreen.Of(this),
        };
    }
}
