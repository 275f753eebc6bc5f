using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests.Cameras;
using Leafstop.Testing.Judging;

namespace Leafstop.Storage.Tests.Judgements;

public sealed class JudgementStoreTests : IDisposable
{
    private static readonly LimitTags Tags = new("Body A, 14-bit raw", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(11 / 3.0));

    private readonly TemporaryFolder _folder = new();

    public JudgementStoreTests() => new CameraStore(_folder.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);

    private JudgementStore Store => new(_folder.File);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Every_answer_and_what_it_said_comes_back()
    {
        KeptJudging judged = Judged(1, Measurements.Morning);
        Assert.True(Store.Keep("body a", judged));
        KeptJudging kept = Assert.Single(Store.List("Body A"));
        Assert.Equal(judged.Answers, kept.Answers, Same);
        Assert.Equal(judged.Ladder, kept.Ladder);
        Assert.Equal((judged.BegunAt, judged.JudgedAt, judged.Seed, judged.Source), (kept.BegunAt, kept.JudgedAt, kept.Seed, kept.Source));
        Assert.Equal(judged.Result.ToSentences(), kept.Result.ToSentences());
        Assert.Equal(judged.ToLimits(), kept.ToLimits());
        Assert.Equal(DateOnly.FromDateTime(Measurements.Morning.UtcDateTime), kept.ToLimits()!.Evidence!.JudgedOn);
    }

    [Fact]
    public void A_session_that_is_saved_after_each_answer_is_kept_once_and_goes_on_where_it_was_left()
    {
        JudgingSession session = JudgingSession.Begin(Setup(3));
        SimulatedObserver eye = new(3);
        for (int i = 0; i < 7; i++)
        {
            JudgingTrial trial = session.Next()!;
            session.Answer(trial.Token, eye.Reply(trial.Question, session.Picture(trial.Token).Level.EquivalentStops));
            Store.Keep("Body A", KeptJudging.Of(session, Measurements.Morning, Measurements.Morning.AddMinutes(i)));
        }

        KeptJudging kept = Store.Unfinished("Body A")!;
        Assert.Single(Store.List("Body A"));
        Assert.Equal(7, kept.Answers.Length);
        Assert.Equal(session.Next()!.Token, kept.Resume().Next()!.Token);
        Assert.Null(Store.Newest("Body A", Tags));
    }

    [Fact]
    public void What_the_pictures_were_made_from_is_found_by_its_name_and_stays_on_this_machine()
    {
        KeptScene scene = new("0123abcd", "/raws/of a morning", "ffee", 38.25, 384, [new KeptCrop(CropRegion.Dark, 100, 200), new KeptCrop(CropRegion.Mid, 1300, 64)]);
        KeptJudging judged = Judged(1, Measurements.Morning) with { Scene = scene };
        Store.Keep("body a", judged);
        // Saved again, as after every answer: the name is still that of one judging.
        Store.Keep("Body A", judged);
        Assert.Null(Store.Find("another"));
        (string camera, KeptJudging kept) = Store.Find("0123abcd")!.Value;
        Assert.Equal("Body A", camera);
        Assert.Equal(judged.Answers, kept.Answers, Same);
        Assert.Equal(scene with { Crops = [] }, kept.Scene! with { Crops = [] });
        Assert.Equal(scene.Crops, kept.Scene.Crops);
        Assert.Equal(scene.Name, Assert.Single(Store.List("Body A")).Scene!.Name);
        Assert.DoesNotContain("/raws", CameraFile.Write(new CameraStore(_folder.File).Find("Body A")!), StringComparison.Ordinal);
        new CameraStore(_folder.File).Forget("Body A");
        Assert.Null(Store.Find("0123abcd"));
    }

    [Fact]
    public void A_judging_that_was_kept_before_scenes_were_has_none()
    {
        using TemporaryFolder old = new();
        using (old.File.Open(version: 5))
            Assert.True(old.File.Exists);
        new CameraStore(old.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Assert.True(new JudgementStore(old.File).Keep("Body A", Judged(1, Measurements.Morning)));
        Assert.Null(Assert.Single(new JudgementStore(old.File).List("Body A")).Scene);
    }

    [Fact]
    public void The_newest_speaks_for_its_tags_and_the_history_stays()
    {
        LimitTags smaller = Tags with { Print = new PrintCondition(300, 600) };
        Store.Keep("Body A", Judged(1, Measurements.Morning));
        Store.Keep("Body A", Judged(2, Measurements.Morning.AddDays(1), smaller));
        Store.Keep("Body A", Judged(4, Measurements.Morning.AddDays(2)));
        Assert.Equal(3, Store.List("Body A").Length);
        Assert.Equal(4, Store.Newest("Body A", Tags)!.Seed);
        Assert.Equal([4L, 2L], Store.Speaking("Body A").Select(j => j.Seed));
        Assert.Null(Store.Newest("Body A", Tags with { Tone = ToneKind.Textured }));
    }

    /// <summary>Whoever is still judging stays blind: what was found so far is nobody's limit, and the finished one before it goes on to speak.</summary>
    [Fact]
    public void An_unfinished_judging_does_not_speak()
    {
        KeptJudging finished = Judged(1, Measurements.Morning), going = Judged(2, Measurements.Morning.AddDays(1));
        Store.Keep("Body A", finished);
        Store.Keep("Body A", going with { Result = going.Result with { Stretch = going.Result.Stretch with { Outcome = LimitOutcome.Unfinished, LimitStops = null, SpreadStops = null } } });
        Assert.Equal([1L], Store.Speaking("Body A").Select(j => j.Seed));
        Assert.Equal(2, Store.Unfinished("Body A")!.Seed);
    }

    // Derived: a judging that finds one limit leaves what an older one said of the other; one that speaks against it does not.
    [Theory]
    [InlineData(LimitOutcome.NotByNoise, true)]
    [InlineData(LimitOutcome.CannotSay, true)]
    [InlineData(LimitOutcome.AboveLadder, false)]
    public void A_newer_judging_with_one_limit_leaves_the_other_one_of_an_older(LimitOutcome outcome, bool borrows)
    {
        KeptJudging older = Judged(1, Measurements.Morning), newer = Judged(2, Measurements.Morning.AddDays(1));
        newer = newer with { Result = newer.Result with { Stretch = newer.Result.Stretch with { Outcome = outcome, LimitStops = null, SpreadStops = null } } };
        Store.Keep("Body A", older);
        Store.Keep("Body A", newer);
        KeptJudging speaks = Store.Newest("Body A", Tags)!;
        Assert.Equal((2L, newer.Result.Clean.Limit), (speaks.Seed, speaks.ToLimits()!.Clean));
        Assert.Equal(borrows ? older.Result.Stretch.Limit : null, speaks.ToLimits()!.Stretch);
        Assert.Equal(borrows ? new BorrowedLimit(JudgingQuestion.WouldSign, older.JudgedAt) : null, speaks.Borrowed);
        // The history says what each of them said.
        Assert.Equal([true, false], Store.List("Body A").Select(j => j.Result.Stretch.HasLimit));
    }

    [Fact]
    public void A_dropped_judging_stays_in_the_history_counts_no_more_and_can_be_taken_back_in()
    {
        Store.Keep("Body A", Judged(1, Measurements.Morning));
        Store.Keep("Body A", Judged(2, Measurements.Morning.AddDays(1)));
        string key = Store.Newest("Body A", Tags)!.Key;
        DateTimeOffset now = Measurements.Morning.AddDays(2);
        Assert.Equal(now, Store.Drop("body a", key, now)!.DroppedAt);
        Assert.Equal(1, Store.Newest("Body A", Tags)!.Seed);
        Assert.Equal([null, now], Store.List("Body A").Select(j => j.DroppedAt));
        // A camera file carries it.
        using TemporaryFolder other = new();
        new CameraStore(other.File).Keep("Body A", CameraFile.Read(CameraFile.Write(new CameraStore(_folder.File).Find("Body A")!)));
        Assert.Equal(1, new JudgementStore(other.File).Newest("Body A", Tags)!.Seed);
        Assert.Null(Store.Drop("Body A", key, null)!.DroppedAt);
        Assert.Equal(2, Store.Newest("Body A", Tags)!.Seed);
        Assert.Null(Store.Drop("Body A", "20260301T000000Z-00000000", now));
        Assert.Null(Store.Drop("Body B", key, now));
    }

    // Derived: two programs went on with one judging; the second to save would wipe the answers of the first.
    [Fact]
    public void A_judging_that_went_on_elsewhere_is_not_overwritten()
    {
        JudgingSession here = JudgingSession.Begin(Setup(5));
        Answer(here, JudgingReply.Yes);
        Assert.True(Store.Advance("Body A", Now(here), []));
        JudgingSession there = Store.Unfinished("Body A")!.Resume();
        Answer(there, JudgingReply.No);
        Assert.True(Store.Advance("Body A", Now(there), Store.Unfinished("Body A")!.Answers));
        JudgingAnswer[] before = [.. here.Answers];
        Answer(here, JudgingReply.Yes);
        Assert.Throws<JudgedElsewhereException>(() => Store.Advance("Body A", Now(here), before));
        Assert.Equal(there.Answers, Store.Unfinished("Body A")!.Answers, Same);
        // Taken back there, to where both stood: here may go on again.
        there.Undo();
        Assert.True(Store.Advance("Body A", Now(there), Store.Unfinished("Body A")!.Answers));
        Assert.True(Store.Advance("Body A", Now(here), before));

        static void Answer(JudgingSession session, JudgingReply reply) => session.Answer(session.Next()!.Token, reply);

        static KeptJudging Now(JudgingSession session) => KeptJudging.Of(session, Measurements.Morning, Measurements.Morning.AddMinutes(1));
    }

    [Fact]
    public void Nothing_is_kept_of_an_unknown_camera_and_a_forgotten_one_takes_its_judgings_along()
    {
        Assert.False(Store.Keep("Body B", Judged(1, Measurements.Morning)));
        Store.Keep("Body A", Judged(1, Measurements.Morning));
        new CameraStore(_folder.File).Forget("Body A");
        new CameraStore(_folder.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Assert.Empty(Store.List("Body A"));
    }

    [Fact]
    public void A_camera_file_carries_judgings_and_a_second_import_adds_nothing()
    {
        Store.Keep("Body A", Judged(1, Measurements.Morning));
        string file = CameraFile.Write(new CameraStore(_folder.File).Find("Body A")!);
        Assert.Contains("for 60 cm at 60 cm", file, StringComparison.Ordinal);
        using TemporaryFolder other = new();
        for (int i = 0; i < 2; i++)
            new CameraStore(other.File).Keep("Body A", CameraFile.Read(file));
        KeptJudging kept = Assert.Single(new JudgementStore(other.File).List("Body A"));
        Assert.True(kept.IsImported);
        Assert.Equal(Store.List("Body A")[0].Answers, kept.Answers, Same);
        Assert.Equal(Store.List("Body A")[0].Result.ToSentences(), kept.Result.ToSentences());
    }

    [Theory]
    [InlineData("\"reply\": \"yes\"", "\"reply\": \"perhaps\"", "reply")]
    [InlineData("\"tone\": \"smooth\"", "\"tone\": \"shiny\"", "tone")]
    [InlineData("\"tone\": \"smooth\"", "\"tone\": \"notStated\"", "tone")]
    [InlineData("\"seed\": \"1\"", "\"seed\": \"one\"", "seed")]
    public void A_damaged_judging_is_refused_by_its_field(string written, string damaged, string field)
    {
        Store.Keep("Body A", Judged(1, Measurements.Morning));
        string file = CameraFile.Write(new CameraStore(_folder.File).Find("Body A")!);
        Assert.Contains(written, file, StringComparison.Ordinal);
        Exception refused = Assert.ThrowsAny<Exception>(() => CameraFile.Read(file.Replace(written, damaged, StringComparison.Ordinal)));
        Assert.IsType<FormatException>(refused, exactMatch: false);
        Assert.Contains(field, refused.Message, StringComparison.Ordinal);
    }

    // Somebody types the answers of one strip in and corrects them at once: both readings are kept, the later one after the first.
    [Fact]
    public void Two_readings_of_one_strip_in_one_second_are_both_kept()
    {
        KeptJudging first = Judged(1, Measurements.Morning), second = first with { Answers = first.Answers[..^1] };
        Assert.True(Store.KeepBeside("Body A", first));
        Assert.True(Store.KeepBeside("Body A", second));
        KeptJudging[] kept = [.. Store.List("Body A")];
        Assert.Equal([first.Answers.Length, second.Answers.Length], kept.Select(k => k.Answers.Length));
        Assert.NotEqual(kept[0].Key, kept[1].Key);
        Assert.Equal(1, (kept[1].JudgedAt - kept[0].JudgedAt).TotalSeconds);
        Assert.False(Store.KeepBeside("Nobody's", first));
    }

    private static JudgingSetup Setup(long seed, LimitTags? tags = null) =>
        new(seed, JudgingLadder.Of(((double[])[100, 200, 400, 800, 1600, 3200, 6400, 12800, 25600]).Select(i => new LadderIso(Iso.FromMarking(i), true))), tags ?? Tags);

    private static KeptJudging Judged(int seed, DateTimeOffset at, LimitTags? tags = null)
    {
        JudgingSession session = JudgingSession.Begin(Setup(seed, tags));
        new SimulatedObserver(seed) { SpreadStops = 0.3 }.Judge(session);
        return KeptJudging.Of(session, at, at.AddMinutes(8));
    }

    // A weight that went through a file gives the same level to rounding.
    private static bool Same(JudgingAnswer one, JudgingAnswer other) =>
        (one.Number, one.Question, one.IsBlank, one.Reply, one.Shown.Iso) == (other.Number, other.Question, other.IsBlank, other.Reply, other.Shown.Iso)
        && Math.Abs(one.Shown.EquivalentStops - other.Shown.EquivalentStops) < 1e-9;
}
