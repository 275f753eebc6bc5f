using Leafstop.Core.Sensor;
using Leafstop.Raw.Dng;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>Derived: what a file says of its own noise, and the truth beside the folder, are never looked at: the answer is the same to the byte without them and with false ones.</summary>
public sealed class BeliefTests : IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    [Theory]
    [InlineData(true, true)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    [InlineData(false, false)]
    public void The_answer_is_the_same_without_noise_profile_and_truth_and_with_false_ones(bool isTwoByTwo, bool isLossless)
    {
        MosaicPattern mosaic = isTwoByTwo ? BenchMosaic.TwoByTwo : BenchMosaic.SixBySix;
        SampleOptions options = new() { Width = 240, Height = 160, Isos = [100, 400, 800], CapFramesPerLevel = 1, Mosaic = mosaic, Lossless = isLossless };
        string[] answers =
        [
            Answer(options with { NoiseProfile = NoiseProfileTag.None }, File.Delete),
            Answer(options with { NoiseProfile = NoiseProfileTag.True }, _ => { }),
            Answer(options with { NoiseProfile = NoiseProfileTag.Falsified }, truth => File.WriteAllText(truth, "{\"levels\":[{\"iso\":100,\"readNoiseElectrons\":99,\"gainElectronsPerDn\":1}]}")),
        ];
        Assert.Contains("\"hasAnswer\": true", answers[0], StringComparison.Ordinal);
        Assert.Equal(answers[0], answers[1]);
        Assert.Equal(answers[0], answers[2]);
    }

    private string Answer(SampleOptions options, Action<string> spoilTruth)
    {
        string folder = Path.Combine(_program.Folder, options.NoiseProfile.ToString());
        BenchSample.Write(options, folder);
        spoilTruth(BenchSample.TruthPath(folder));
        // A truth among the raws is a stray like any other.
        if (File.Exists(BenchSample.TruthPath(folder)))
            File.Copy(BenchSample.TruthPath(folder), Path.Combine(folder, ".truth.json"));
        Ended ended = _program.Run("measure", folder, "--json", "--quiet");
        Assert.True(ended.Code == 0, ended.Error);
        return ended.Out;
    }
}
