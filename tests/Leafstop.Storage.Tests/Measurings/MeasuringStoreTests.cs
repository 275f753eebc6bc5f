using Leafstop.Core.Sensor;
using Leafstop.Storage.Measurings;

namespace Leafstop.Storage.Tests.Measurings;

/// <summary>Measurings outlive the process that began them.</summary>
public sealed class MeasuringStoreTests : IDisposable
{
    private static readonly DateTimeOffset Morning = new(2026, 3, 1, 6, 50, 12, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private MeasuringStore Store => new(_folder.File);

    private static KeptMeasuring Wish(string id, int minutes = 0) => new(id, "/frames/kitchen bench", new PrintCondition(900, 1200), Morning.AddMinutes(minutes));

    [Fact]
    public void A_wish_is_there_for_the_next_process_and_its_end_with_the_answer()
    {
        Assert.Empty(Store.List());
        Assert.Null(Store.Find("a"));
        Store.Add(Wish("a"));
        Assert.Equal(Wish("a"), Assert.Single(Store.List()));
        Assert.Null(Store.Answer("a"));
        KeptMeasuring done = Wish("a") with { State = MeasuringState.Done, EndedAt = Morning.AddMinutes(1), Camera = "Body A", Verdict = "A sound metered ladder." };
        Store.End(done, "{\"ladder\":\"metered\"}");
        Assert.Equal(done, Store.Find("a"));
        Assert.Equal("{\"ladder\":\"metered\"}", Store.Answer("a"));
        // What is over is over: a second end, as of a process that was slow, changes nothing.
        Store.End(done with { State = MeasuringState.Failed, Why = "Late." }, null);
        Assert.Equal(done, Store.Find("a"));
    }

    [Fact]
    public void A_stopped_one_is_opened_again_and_a_done_one_is_not()
    {
        Store.Add(Wish("a"));
        Assert.False(Store.Reopen("a"));
        Store.End(Wish("a") with { State = MeasuringState.Stopped, EndedAt = Morning }, null);
        Assert.True(Store.Reopen("a"));
        Assert.Equal(Wish("a"), Store.Find("a"));
        Store.End(Wish("a") with { State = MeasuringState.Done, EndedAt = Morning }, "{}");
        Assert.False(Store.Reopen("a"));
        Assert.True(Store.Remove("a"));
        Assert.False(Store.Remove("a"));
    }

    [Fact]
    public void The_oldest_ended_ones_give_way_and_open_ones_never()
    {
        Store.Add(Wish("open"));
        for (int i = 0; i < MeasuringStore.MostEnded + 3; i++)
        {
            Store.Add(Wish($"{i}", i));
            Store.End(Wish($"{i}", i) with { State = MeasuringState.Done, EndedAt = Morning.AddMinutes(i) }, "{}");
        }

        Assert.Equal(MeasuringStore.MostEnded + 1, Store.List().Length);
        Assert.Null(Store.Find("2"));
        Assert.NotNull(Store.Find("3"));
        Assert.NotNull(Store.Find("open"));
    }

    [Fact]
    public void One_process_claims_the_work()
    {
        using (IDisposable? claim = Store.Claim("a"))
        {
            Assert.NotNull(claim);
            Assert.Null(Store.Claim("a"));
            using IDisposable? other = Store.Claim("b");
            Assert.NotNull(other);
        }

        using IDisposable? again = Store.Claim("a");
        Assert.NotNull(again);
    }
}
