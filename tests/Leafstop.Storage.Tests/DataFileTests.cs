using Leafstop.Storage.Cameras;
using Leafstop.Storage.Tests.Cameras;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage.Tests;

public sealed class DataFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_file_of_the_first_schema_is_brought_up_to_date_and_keeps_its_cameras()
    {
        DataFile file = _folder.File;
        using (SqliteConnection old = file.Open(version: 1))
        {
            DataFile.Execute(old, """
                INSERT INTO camera VALUES (1, 'Body A', 'BODY A');
                INSERT INTO measurement VALUES (1, 1, '2026-01-02T03:04:05Z', 0, 'Invented', 'Body A', NULL, 8256, 5504, '2x2', 14, 'Metered');
                INSERT INTO level VALUES (1, 0, 100, 'Metered', 3.05, 3.0, 3.1, 3.6, 3.5, 3.7, 'Fit', 50000, 1, 1, '', NULL);
                """);
            Assert.Equal(1, DataFile.Number(old, "PRAGMA user_version"));
        }
        CameraStore store = new(file);
        KeptCamera kept = Assert.Single(store.List());
        Assert.Equal(3.6, Assert.Single(kept.Newest!.Levels).ReadNoiseElectrons!.Value.Value);
        Assert.Empty(kept.Newest!.GainSteps);
        Assert.Equal(2, store.Keep("Body A", [Measurements.At(Measurements.Morning)]).History);
        Assert.Single(store.Find("Body A")!.Newest!.GainSteps);
    }

    [Fact]
    public void A_file_that_is_no_database_is_refused_and_left_as_it_is()
    {
        DataFile file = _folder.File;
        Directory.CreateDirectory(file.Folder);
        byte[] rubbish = [.. Enumerable.Range(0, 5000).Select(i => (byte)(i * 37))];
        File.WriteAllBytes(file.Path, rubbish);
        var refused = Assert.Throws<UnusableDataFileException>(() => new CameraStore(file).List());
        Assert.Contains("damaged", refused.Message, StringComparison.Ordinal);
        Assert.Contains(file.Path, refused.Message, StringComparison.Ordinal);
        Assert.Throws<UnusableDataFileException>(() => new CameraStore(file).Keep("Body A", [Measurements.At(Measurements.Morning)]));
        Assert.Equal(rubbish, File.ReadAllBytes(file.Path));
    }

    [Fact]
    public void Damage_in_the_middle_of_the_file_is_told_as_damage()
    {
        DataFile file = _folder.File;
        CameraStore store = new(file);
        for (int i = 0; i < 40; i++)
            store.Keep("Body A", [Measurements.At(Measurements.Morning.AddDays(i))]);
        using (SqliteConnection connection = file.Open())
            DataFile.Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE);");
        byte[] bytes = File.ReadAllBytes(file.Path);
        // All but the first page, which holds the header and the table definitions.
        Array.Fill(bytes, (byte)0xA5, 4096, bytes.Length - 4096);
        File.WriteAllBytes(file.Path, bytes);
        Assert.Throws<UnusableDataFileException>(() => store.List());
        Assert.Equal(bytes, File.ReadAllBytes(file.Path));
    }

    [Fact]
    public void A_database_of_another_program_is_refused_and_left_as_it_is()
    {
        DataFile file = _folder.File;
        Directory.CreateDirectory(file.Folder);
        using (SqliteConnection other = new($"Data Source={file.Path};Pooling=False"))
        {
            other.Open();
            DataFile.Execute(other, "CREATE TABLE birds (name TEXT); INSERT INTO birds VALUES ('dipper');");
        }
        byte[] before = File.ReadAllBytes(file.Path);
        var refused = Assert.Throws<UnusableDataFileException>(() => new CameraStore(file).Keep("Body A", [Measurements.At(Measurements.Morning)]));
        Assert.Contains("another program", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(file.Path));
    }

    [Fact]
    public void A_file_of_a_newer_program_is_refused()
    {
        DataFile file = _folder.File;
        using (SqliteConnection connection = file.Open())
            DataFile.Execute(connection, "PRAGMA user_version = 999;");
        Assert.Contains("newer Leafstop", Assert.Throws<UnusableDataFileException>(() => new CameraStore(file).List()).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_data_folder_that_is_a_file_is_refused_with_the_path()
    {
        File.WriteAllText(_folder.File.Folder, "");
        var refused = Assert.Throws<UnusableDataFileException>(() => new CameraStore(_folder.File).Keep("Body A", [Measurements.At(Measurements.Morning)]));
        Assert.Contains("--data", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_file_is_in_write_ahead_mode()
    {
        using SqliteConnection connection = _folder.File.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode";
        Assert.Equal("wal", command.ExecuteScalar());
    }
}
