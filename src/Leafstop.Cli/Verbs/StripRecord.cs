using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper.Strip;
using Leafstop.Core.Sensor;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Strips;

namespace Leafstop.Cli.Verbs;

/// <summary>Where test strips are remembered; refusals in sentences for the person.</summary>
/// <param name="dataFolder">Data folder; it need not be there yet.</param>
internal sealed class StripRecord(string dataFolder)
{
    private readonly DataFile _file = new(dataFolder);

    public long NextNumber() => Refusal.Told(() => new StripStore(_file).NextNumber());

    /// <summary>The strip of that number.</summary>
    /// <exception cref="Refusal">None is remembered.</exception>
    public KeptStrip Find(long number) => Refusal.Told(() =>
    {
        StripStore store = new(_file);
        if (store.Find(number) is { } strip)
            return strip;
        IReadOnlyList<long> known = store.Numbers();
        throw Refusal.NoAnswer(known.Count == 0
            ? $"no strip {number} was made with this data folder, nor any other: make one with leafstop strip DIR --out strip.pdf."
            : $"no strip {number} was made with this data folder: there {(known.Count == 1 ? "is strip" : "are strips")} {string.Join(", ", known)}. The number stands at the foot of the sheet.");
    });

    /// <summary>The camera that the answers will belong to, and whether it is kept: the kept one that is named, else the model that the files state.</summary>
    /// <exception cref="Refusal">The named camera is not kept, or is another body.</exception>
    public (string Name, bool IsKept) OwnerOf(string? name, CameraIdentity camera) => Refusal.Told(() =>
        new CameraStore(_file).Find(name ?? camera.Model) is { } kept ? kept.RefusalOf(camera) is { } why ? throw Refusal.NoAnswer(why) : (kept.Name, true)
        : name is null ? (camera.Model, false)
        : throw Refusal.NoAnswer($"no camera '{name.Trim()}' is kept: measure it with leafstop measure DIR --save \"{name.Trim()}\", or leave --camera out."));

    /// <summary>Remembers a strip.</summary>
    public void Keep(StripContent content, string owner, DateTimeOffset now)
    {
        KeptStrip strip = new(content.Number, owner, DateTimeOffset.FromUnixTimeSeconds(now.ToUnixTimeSeconds()), content.Codes.Ladder.Isos, content.Repeats, content.Tags);
        _ = Refusal.Told(() =>
        {
            new StripStore(_file).Keep(strip);
            return true;
        });
    }
}
