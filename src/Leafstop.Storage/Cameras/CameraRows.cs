using System.Globalization;
using Leafstop.Core.Card;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage.Cameras;

/// <summary>Rows of the tables to kept values.</summary>
internal static class CameraRows
{
    private const string TimeForm = "yyyy-MM-dd'T'HH:mm:ss'Z'";

    /// <summary>A time as it is stored and exported, UTC to the second.</summary>
    public static string Time(DateTimeOffset time) => time.UtcDateTime.ToString(TimeForm, CultureInfo.InvariantCulture);

    /// <summary>Reads what <see cref="Time(DateTimeOffset)"/> wrote.</summary>
    public static bool TryTime(string? text, out DateTimeOffset time) => DateTimeOffset.TryParseExact(
        text, TimeForm, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out time);

    /// <summary>A measurement without its levels and steps.</summary>
    public static KeptMeasurement Measurement(SqliteDataReader row) => new()
    {
        MeasuredAt = TryTime(row.GetString(1), out DateTimeOffset at) ? at : throw new InvalidDataException($"'{row.GetString(1)}' is no time."),
        IsImported = row.GetBoolean(2),
        Folder = row.IsDBNull(11) ? null : row.GetString(11),
        Camera = new CameraIdentity
        {
            Make = row.GetString(3),
            Model = row.GetString(4),
            BodyFingerprint = row.IsDBNull(5) ? null : row.GetString(5),
            Width = row.GetInt32(6),
            Height = row.GetInt32(7),
            Mosaic = row.GetString(8),
            Bits = row.GetInt32(9),
        },
        Ladder = Enum.Parse<LadderKind>(row.GetString(10)),
        Levels = [],
        GainSteps = [],
    };

    /// <summary>A level.</summary>
    public static KeptLevel Level(SqliteDataReader row) => new()
    {
        Iso = Iso.FromSpeed(row.GetDouble(0)),
        Ladder = Enum.Parse<LadderKind>(row.GetString(1)),
        GainElectronsPerDn = Interval(row, 2),
        ReadNoiseElectrons = Interval(row, 5),
        ReadNoiseSource = row.IsDBNull(8) ? null : Enum.Parse<ReadNoiseSource>(row.GetString(8)),
        SaturationElectrons = row.IsDBNull(9) ? null : row.GetDouble(9),
        ClipSeen = row.GetBoolean(10),
        Usable = row.GetBoolean(11),
        Flags = [.. row.GetString(12).Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Enum.Parse<LevelFlag>)],
        Reason = row.IsDBNull(13) ? null : row.GetString(13),
    };

    /// <summary>A card: time and text.</summary>
    public static KeptCard Card(SqliteDataReader row) => new(
        TryTime(row.GetString(0), out DateTimeOffset at) ? at : throw new InvalidDataException($"'{row.GetString(0)}' is no time."), CardText.Parse(row.GetString(1)));

    private static Estimate? Interval(SqliteDataReader row, int first) => row.IsDBNull(first)
        ? null
        : new Estimate(row.GetDouble(first), row.GetDouble(first + 1), row.GetDouble(first + 2));
}
