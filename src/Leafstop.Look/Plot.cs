using static Leafstop.Look.Markup;

namespace Leafstop.Look;

/// <summary>A drawing with two axes. Places across are shares of the width, places down are pixels, so that text keeps its size on any page.</summary>
public sealed class Plot
{
    private readonly Markup _marks = new();
    private readonly Axis _x;
    private readonly Axis _y;
    private readonly double _height;
    private bool _isRead;

    /// <summary>An empty drawing with its rules.</summary>
    /// <param name="x">Axis across.</param>
    /// <param name="y">Axis upwards.</param>
    /// <param name="height">Height of the frame, px.</param>
    /// <param name="isSmall">Leaves out every second number across.</param>
    public Plot(Axis x, Axis y, double height, bool isSmall = false)
    {
        (_x, _y, _height) = (x, y, height);
        foreach ((double value, string label, bool isMinor) in x.Rules)
        {
            string at = Share(x.At(value));
            _marks.Empty("line", ("class", "g"), ("x1", at), ("x2", at), ("y1", "0"), ("y2", Px(height)));
            if (label.Length > 0 && (!isSmall || !isMinor))
                _marks.Element("text", label, ("class", isMinor ? "lb alt" : "lb"), ("x", at), ("y", Px(height + 24)), ("text-anchor", "middle"));
        }

        foreach ((double value, string label, _) in y.Rules)
        {
            double at = Down(value);
            _marks.Empty("line", ("class", "g"), ("x1", "0"), ("x2", "100%"), ("y1", Px(at)), ("y2", Px(at)));
            _marks.Element("text", label, ("class", "lb"), ("x", "-10"), ("y", Px(at + 6)), ("text-anchor", "end"));
        }
    }

    /// <summary>A line through points; the first class says its weight, "wk" makes it broken.</summary>
    public Plot Curve(IEnumerable<(double X, double Y)> points, bool isTheory)
    {
        string path = string.Join(" L", points.Select(p => $"{Px(_x.At(p.X) * 100)},{Px(Down(p.Y) / _height * 100)}"));
        _marks.Open("svg", ("width", "100%"), ("height", Px(_height)), ("viewBox", "0 0 100 100"), ("preserveAspectRatio", "none"));
        _marks.Empty("path", ("class", isTheory ? "ln wk" : "ln"), ("vector-effect", "non-scaling-stroke"), ("d", "M" + path));
        _marks.Close();
        return this;
    }

    /// <summary>A point with its interval.</summary>
    /// <param name="x">Value across.</param>
    /// <param name="y">Value upwards.</param>
    /// <param name="low">Low end of the interval.</param>
    /// <param name="high">High end of the interval.</param>
    /// <param name="state">Solid, open when in doubt, a cross when left off.</param>
    /// <param name="radius">Radius, px.</param>
    /// <param name="reading">Its exact value in words, told when it has the focus or the pointer; empty for a point that tells nothing.</param>
    public Plot Point(double x, double y, double low, double high, PointState state, double radius = 4.5, string reading = "")
    {
        string at = Share(_x.At(x));
        if (reading.Length > 0)
        {
            // One stop for the tab key a plot; from there the arrow keys go on (plots.js).
            _marks.Open("g", ("class", "read"), ("role", "img"), ("tabindex", _isRead ? "-1" : "0"), ("aria-label", reading));
            _isRead = true;
        }

        if (double.IsFinite(low) && double.IsFinite(high) && Down(low) - Down(high) > 2 * radius && state != PointState.LeftOff)
            _marks.Empty("line", ("class", "wh"), ("x1", at), ("x2", at), ("y1", Px(Down(high))), ("y2", Px(Down(low))));
        if (state == PointState.LeftOff)
        {
            string r = Px(radius + 0.5);
            _marks.Open("svg", ("x", at), ("y", Px(Down(y))), ("overflow", "visible"));
            _marks.Empty("path", ("class", "cross"), ("d", $"M-{r},-{r}L{r},{r}M{r},-{r}L-{r},{r}"));
            _marks.Close();
        }
        else
        {
            _marks.Empty("circle", ("class", state == PointState.Open ? "pt-o" : "pt"), ("cx", at), ("cy", Px(Down(y))), ("r", Px(state == PointState.Open ? radius + 0.5 : radius)));
        }

        if (reading.Length > 0)
        {
            _marks.Empty("circle", ("class", "ring"), ("cx", at), ("cy", Px(Down(y))), ("r", Px(radius + 7)));
            _marks.Element("text", reading, ("class", "value"), ("x", "-38"), ("y", "-14")).Close();
        }

        return this;
    }

    /// <summary>Words beside a place in the plot.</summary>
    /// <param name="x">Value across.</param>
    /// <param name="y">Value upwards.</param>
    /// <param name="text">The words.</param>
    /// <param name="dx">Shift right, px.</param>
    /// <param name="dy">Shift down, px.</param>
    /// <param name="anchor">start, middle or end.</param>
    public Plot Label(double x, double y, string text, double dx = 0, double dy = 0, string anchor = "start")
    {
        _marks.Open("svg", ("x", Share(_x.At(x))), ("y", Px(Down(y))), ("overflow", "visible"));
        _marks.Element("text", text, ("class", "halo"), ("x", Px(dx)), ("y", Px(dy)), ("text-anchor", anchor));
        _marks.Close();
        return this;
    }

    /// <summary>An upright line at a place across, between two values.</summary>
    public Plot Upright(double x, double from, double to)
    {
        string at = Share(_x.At(x));
        _marks.Empty("line", ("class", "up"), ("x1", at), ("x2", at), ("y1", Px(Down(from))), ("y2", Px(Down(to))));
        return this;
    }

    /// <summary>Writes the drawing.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="sentence">What the drawing shows, for those who do not see it.</param>
    public void Draw(Markup page, string sentence)
    {
        page.Open("div", ("class", "plots"));
        page.Open("svg", ("class", "plot"), ("width", "100%"), ("height", Px(_height + 32)), ("role", _isRead ? "group" : "img"), ("aria-label", sentence));
        page.OwnResource(_marks.ToString());
        page.Empty("line", ("class", "ax"), ("x1", "0"), ("x2", "100%"), ("y1", Px(_height)), ("y2", Px(_height)));
        page.Empty("line", ("class", "ax"), ("x1", "0"), ("x2", "0"), ("y1", "0"), ("y2", Px(_height)));
        page.Close().Close().Line();
    }

    private double Down(double value) => _height * (1 - _y.At(value));
}

/// <summary>How far a point can be trusted.</summary>
public enum PointState
{
    /// <summary>Trusted.</summary>
    Solid,
    /// <summary>In doubt.</summary>
    Open,
    /// <summary>Not used.</summary>
    LeftOff,
}
