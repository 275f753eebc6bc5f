using System.Text.Json;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Derived: whoever has the JSON alone says the same as whoever measured.</summary>
public sealed class BenchReadingTests
{
    public static TheoryData<string> All => ["metered", "faulty", "sameLight", "nothing", "jpeg", "none", "mixed", "crowded"];

    [Theory]
    [MemberData(nameof(All))]
    public void An_answer_read_back_is_said_word_by_word_alike(string which)
    {
        BenchAnswer answer = which switch
        {
            "metered" => BodyABench.Metered(),
            "faulty" => BodyABench.DriftingLampAndHelpfulCamera(),
            "sameLight" => BodyABench.SameLight(),
            "nothing" => BodyABench.NothingUsable(),
            "jpeg" => BodyABench.JpegOnly(),
            "none" => BodyABench.NoLadder(),
            "crowded" => BodyABench.Crowded(),
            _ => BodyABench.Mixed(),
        };
        using JsonDocument document = JsonDocument.Parse(BenchJson.Compact(answer));
        BenchAnswer read = BenchReading.Answer(document.RootElement, "/bench/kitchen");
        Assert.Equal(BenchJson.Of(answer), BenchJson.Of(read));
        Assert.Equal(Surfaces.Of(answer), Surfaces.Of(read));
        Assert.Equal(answer.Levels.SelectMany(l => l.Frames), read.Levels.SelectMany(l => l.Frames));
    }
}
