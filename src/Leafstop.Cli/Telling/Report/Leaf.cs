namespace Leafstop.Cli.Telling.Report;

/// <summary>The state of a leaf: whole holds, half needs the person, bare does not hold, broken is not known.</summary>
internal enum LeafState
{
    Whole,
    Half,
    Bare,
    Broken,
}

/// <summary>Draws the leaf. It always stands beside words, so it is hidden from a screen reader.</summary>
internal static class Leaf
{
    private const string Blade = "M0,-9 C15,-19 14,-37 0,-50 C-14,-37 -15,-19 0,-9Z";

    public static Markup DrawLeaf(this Markup page, LeafState state)
    {
        page.Open("svg", ("viewBox", "-15 -52 30 54"), ("aria-hidden", "true"));
        page.Empty("path", ("class", "leaf"), ("d", "M0,0V-10"), ("style", "fill:none"));
        page.Empty("path", ("class", state switch { LeafState.Whole => "leaf", LeafState.Broken => "leaf-q", _ => "leaf-o" }), ("d", Blade));
        if (state == LeafState.Whole)
            page.Empty("path", ("d", "M0,-13V-43"), ("style", "stroke:var(--paper);stroke-width:1.6"));
        else if (state == LeafState.Half)
            page.Empty("path", ("class", "half"), ("d", "M0,-9 C15,-19 14,-37 0,-50Z"));
        else if (state == LeafState.Bare)
            page.Empty("path", ("class", "leaf"), ("d", "M0,-9V-43"), ("style", "fill:none;stroke-width:1.6"));
        return page.Close();
    }
}
