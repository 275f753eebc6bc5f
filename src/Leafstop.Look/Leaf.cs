namespace Leafstop.Look;

/// <summary>The state of a leaf: whole holds, half needs the person, bare does not hold, broken is not known.</summary>
public enum LeafState
{
    /// <summary>Holds, or inside clean.</summary>
    Whole,
    /// <summary>Needs the person, or between clean and stretch.</summary>
    Half,
    /// <summary>Does not hold, or past stretch.</summary>
    Bare,
    /// <summary>Not known.</summary>
    Broken,
}

/// <summary>Draws the leaf. It always stands beside words, so it is hidden from a screen reader.</summary>
public static class Leaf
{
    private const string Blade = "M0,-9 C15,-19 14,-37 0,-50 C-14,-37 -15,-19 0,-9Z";

    /// <summary>A small picture of its own.</summary>
    public static Markup DrawLeaf(this Markup page, LeafState state) =>
        page.Open("svg", ("viewBox", "-15 -52 30 54"), ("aria-hidden", "true")).LeafMarks(state).Close();

    /// <summary>Its marks inside a drawing, the stalk's foot at the origin.</summary>
    public static Markup LeafMarks(this Markup page, LeafState state)
    {
        page.Empty("path", ("class", "leaf"), ("d", "M0,0V-10"), ("style", "fill:none"));
        page.Empty("path", ("class", state switch { LeafState.Whole => "leaf", LeafState.Broken => "leaf-q", _ => "leaf-o" }), ("d", Blade));
        if (state == LeafState.Whole)
            page.Empty("path", ("d", "M0,-13V-43"), ("style", "stroke:var(--paper);stroke-width:1.6"));
        else if (state == LeafState.Half)
            page.Empty("path", ("class", "half"), ("d", "M0,-9 C15,-19 14,-37 0,-50Z"));
        else if (state == LeafState.Bare)
            page.Empty("path", ("class", "leaf"), ("d", "M0,-9V-43"), ("style", "fill:none;stroke-width:1.6"));
        return page;
    }
}
