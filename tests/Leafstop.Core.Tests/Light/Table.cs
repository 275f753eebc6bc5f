using System.Globalization;
using Leafstop.Core.Light;
using Leafstop.Testing;
using NodaTime;
using NodaTime.Text;

namespace Leafstop.Core.Tests.Light;

/// <summary>One row of a table of Data/, by the names in its first line.</summary>
internal sealed class Row(Dictionary<string, int> columns, string[] cells)
{
    public string this[string column] => cells[columns[column]];

    public double Number(string column) => double.Parse(this[column], CultureInfo.InvariantCulture);

    public Instant Time(string column) => InstantPattern.General.Parse(this[column]).Value;

    public Place Place(double elevationMetres = 0) => Core.Light.Place.FromDegrees(Number("lat_deg"), Number("lon_deg"), elevationMetres);
}

/// <summary>The tables of Data/.</summary>
internal static class Table
{
    public static IReadOnlyList<Row> Read(string name)
    {
        string[] lines = File.ReadAllLines(Path.Combine(Repository.Root, "tests", "Leafstop.Core.Tests", "Data", name));
        Dictionary<string, int> columns = lines[0].Split(',').Select((c, i) => (c, i)).ToDictionary(p => p.c, p => p.i);
        return [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => new Row(columns, l.Split(',')))];
    }
}
