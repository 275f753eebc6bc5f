using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class ShotListTextTests : IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    // Published: job figures, 8 s at ISO 100 to 1/30 s at ISO 25 600 at f/8.
    [Fact]
    public void The_list_can_be_printed_and_ticked()
    {
        Ended list = _program.Run("measure", "--shot-list", "--lamp", "mains50");
        Assert.Equal((0, ""), (list.Code, list.Error));
        Assert.Contains("44 raw frames at f/8", list.Out, StringComparison.Ordinal);
        Assert.Contains("\n  100     8 s       [ ] [ ] [ ] [ ]", list.Out, StringComparison.Ordinal);
        Assert.Contains("\n  25 600  1/30 s    [ ] [ ] [ ] [ ] 3.9 %", list.Out, StringComparison.Ordinal);
        Assert.All(list.Out.Split('\n'), line => Assert.True(line.Length <= 120));
    }

    [Fact]
    public void The_list_as_JSON_has_its_levels()
    {
        Ended list = _program.Run("measure", "--shot-list", "--lamp", "led-dc", "--levels", "100 400", "--json");
        using JsonDocument json = JsonDocument.Parse(list.Out);
        JsonElement[] levels = [.. json.RootElement.GetProperty("levels").EnumerateArray()];
        Assert.Equal([100, 400], levels.Select(l => l.GetProperty("iso").GetDouble()));
        Assert.Equal(4, levels[0].GetProperty("shutterSeconds").GetDouble() / levels[1].GetProperty("shutterSeconds").GetDouble(), 1e-9);
    }
}
