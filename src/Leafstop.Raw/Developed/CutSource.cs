using System.Globalization;
using System.Text.Json;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Developed;

/// <summary>Where samples come from: the cache, or else files decoded in child processes.</summary>
internal sealed class CutSource(WorkerCommand worker, CropCache? cache, int total, IProgress<DecodingProgress>? progress) : IAsyncDisposable
{
    private readonly DecodingPool _pool = new(worker);
    private int _told;

    public ValueTask DisposeAsync() => _pool.DisposeAsync();

    /// <summary>Finds the places on the reference level and cuts them.</summary>
    public async Task<CutAnswer?> ReferenceAsync(Level level, int side, CropPosition[] moved, double midStops, CancellationToken cancel)
    {
        string[] files = BenchPictures.FilesOf(level);
        string? search = SearchKey(files, side, moved, midStops);
        if (Places(search) is { } known && Cached(level, side, known) is { } kept)
        {
            Tell(files);
            return new CutAnswer { Places = known, Frames = kept };
        }

        CutAnswer? answer = (await _pool.CutAsync([(files, Request(level, side) with { Places = moved, Search = true, MidStops = midStops })], Onward(), cancel).ConfigureAwait(false))[0];
        _told += files.Length;
        if (answer is null) return null;
        // Places found without the partner are not those that the pair would give.
        if (answer.Frames.Length == files.Length) cache?.Write(search, JsonSerializer.SerializeToUtf8Bytes(answer.Places, WorkerMessages.Default.CropPositionArray));
        Keep(answer, side);
        return answer;
    }

    /// <summary>Cuts places out of other levels; an empty list where no file can be read.</summary>
    public async Task<IReadOnlyList<FrameCut>[]> OthersAsync(IReadOnlyList<Level> levels, int side, Func<Level, CropPosition[]> placesOf, CancellationToken cancel)
    {
        CropPosition[][] places = [.. levels.Select(placesOf)];
        var cut = new IReadOnlyList<FrameCut>?[levels.Count];
        for (int i = 0; i < cut.Length; i++)
        {
            cut[i] = Cached(levels[i], side, places[i]);
            if (cut[i] is not null) Tell(BenchPictures.FilesOf(levels[i]));
        }

        // One job a file: the last level would otherwise keep one child busy and leave the others idle.
        (int Level, string File)[] left = [.. Enumerable.Range(0, cut.Length).Where(i => cut[i] is null).SelectMany(i => BenchPictures.FilesOf(levels[i]).Select(file => (i, file)))];
        CutAnswer?[] made = await _pool.CutAsync([.. left.Select(l => ((IReadOnlyList<string>)[l.File], Request(levels[l.Level], side) with { Places = places[l.Level] }))], Onward(), cancel).ConfigureAwait(false);
        foreach (CutAnswer answer in made.OfType<CutAnswer>()) Keep(answer, side);
        foreach (var level in left.Zip(made, (l, answer) => (l.Level, answer)).GroupBy(m => m.Level))
            cut[level.Key] = [.. level.SelectMany(m => m.answer?.Frames ?? [])];

        return [.. cut.Select(c => c ?? [])];
    }

    private static CutRequest Request(Level level, int side) => new()
    {
        Side = side,
        BlackDn = BenchPictures.BlackOf(level),
        ClipDn = level.Planes.ToDictionary(p => p.Plane, p => p.ClipDn, StringComparer.Ordinal),
    };

    private CropPosition[]? Places(string? key) => Entry(key) is { } bytes ? Parsed(key!, () => JsonSerializer.Deserialize(bytes, WorkerMessages.Default.CropPositionArray)) : null;

    /// <summary>All places of all files of a level, or null when one is missing.</summary>
    private FrameCut[]? Cached(Level level, int side, CropPosition[] places)
    {
        string[] files = BenchPictures.FilesOf(level);
        Dictionary<string, double> black = BenchPictures.BlackOf(level);
        if (cache is null || places.Length == 0) return null;
        var frames = new List<FrameCut>();
        foreach (string file in files)
        {
            var areas = new List<CutArea>();
            FrameCut? frame = null;
            foreach (CropPosition place in places)
            {
                string? key = AreaKey(file, side, place);
                if (Entry(key) is not { } bytes || Parsed(key!, () => JsonSerializer.Deserialize(bytes, WorkerMessages.Default.FrameCut)) is not { } one || !one.Fits()) return null;
                frame = one;
                areas.AddRange(one.Areas);
            }

            // Samples stay what they are; the black level may have been measured anew since.
            double[] measured = [.. frame!.Mosaic.PlaneNames().Zip(frame.BlackDn, (name, own) => black.GetValueOrDefault(name, own))];
            frames.Add(frame with { Areas = [.. areas], File = file, BlackDn = measured });
        }

        return [.. frames];
    }

    private void Keep(CutAnswer answer, int side)
    {
        foreach (FrameCut frame in answer.Frames)
            foreach (CutArea area in frame.Areas)
                cache?.Write(AreaKey(frame.File, side, new CropPosition(area.Subject, area.Left + CutRequest.Margin, area.Top + CutRequest.Margin)),
                    JsonSerializer.SerializeToUtf8Bytes(frame with { Areas = [area] }, WorkerMessages.Default.FrameCut));
    }

    private byte[]? Entry(string? key) => cache?.Read(key);

    // An entry that is whole and yet makes no sense was written by another version.
    private T? Parsed<T>(string key, Func<T?> parse)
        where T : class
    {
        try
        {
            return parse();
        }
        catch (JsonException)
        {
            cache?.Forget(key);
            return null;
        }
    }

    private static string? AreaKey(string file, int side, CropPosition place) =>
        CropCache.Key(file, string.Create(CultureInfo.InvariantCulture, $"{place.Subject} {place.Left} {place.Top} {side}"));

    private static string? SearchKey(string[] files, int side, CropPosition[] moved, double midStops)
    {
        string what = string.Create(CultureInfo.InvariantCulture, $"places {side} {midStops:R} {string.Join(';', moved.OrderBy(m => m.Subject).Select(m => $"{m.Subject} {m.Left} {m.Top}"))}");
        string?[] keys = [.. files.Select(f => CropCache.Key(f, what))];
        return keys.Length == 0 || keys.Contains(null) ? null : string.Join('\n', keys);
    }

    private void Tell(string[] files)
    {
        foreach (string file in files) progress?.Report(new DecodingProgress(file, ++_told, total));
    }

    private Told? Onward() => progress is null ? null : new Told(progress, _told, total);

    /// <summary>Several jobs are told as one.</summary>
    private sealed class Told(IProgress<DecodingProgress> progress, int before, int total) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => progress.Report(value with { Done = before + value.Done, Total = total });
    }
}
