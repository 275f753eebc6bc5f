namespace Leafstop.Pocket.Data;

/// <summary>One JSON object, read mildly: what is missing or of another kind is as if it were not there.</summary>
/// <remarks>Plain loops: a query over lists took a tenth of a second of the page's start, since a browser interprets each of its many small methods for the first time.</remarks>
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

    /// <summary>The objects of a list, read one by one; what <paramref name="read"/> makes nothing of is left out.</summary>
    public List<T> Each<T>(string name, Func<Entry, T?> read)
        where T : class
    {
        List<T> all = [];
        foreach (object? item in Items(name))
        {
            if (item is Dictionary<string, object?> inner && read(new Entry(inner)) is { } one)
                all.Add(one);
        }
        return all;
    }

    /// <summary>A number of each object of a list, in order, each once.</summary>
    public List<double> Ordered(string name, string number, double least, double most)
    {
        List<double> all = [];
        foreach (object? item in Items(name))
        {
            if (item is not Dictionary<string, object?> inner || new Entry(inner).Within(number, least, most) is not { } value)
                continue;
            int at = 0;
            while (at < all.Count && all[at] < value)
                at++;
            if (at == all.Count || all[at] > value)
                all.Insert(at, value);
        }
        return all;
    }

    public IEnumerable<double> Numbers(string name) => Items(name).OfType<double>();

    public IEnumerable<string> Texts(string name) => Items(name).OfType<string>();

    private List<object?> Items(string name) => Property(name) as List<object?> ?? [];

    private object? Property(string name) => members.TryGetValue(name, out object? value) ? value : null;
}
