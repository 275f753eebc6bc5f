namespace Leafstop.Pocket.Data;

/// <summary>One JSON object, read mildly: what is missing or of another kind is as if it were not there.</summary>
internal readonly struct Entry(Dictionary<string, object?> members)
{
    public string Text(string name) => Property(name) as string ?? "";

    public bool Truth(string name) => Property(name) is true;

    /// <summary>A number within a range; "inf" where the range has no end; else null.</summary>
    public double? Within(string name, double least, double most) => Property(name) switch
    {
        double number when number >= least && number <= most => number,
        "inf" when double.IsPositiveInfinity(most) => double.PositiveInfinity,
        _ => null,
    };

    public Entry? Inner(string name) => Property(name) is Dictionary<string, object?> inner ? new Entry(inner) : null;

    public IEnumerable<Entry> Each(string name) => Items(name).OfType<Dictionary<string, object?>>().Select(e => new Entry(e));

    public IEnumerable<double> Numbers(string name) => Items(name).OfType<double>();

    public IEnumerable<string> Texts(string name) => Items(name).OfType<string>();

    private List<object?> Items(string name) => Property(name) as List<object?> ?? [];

    private object? Property(string name) => members.GetValueOrDefault(name);
}
