namespace Leafstop.Core.Text;

/// <summary>Text that comes from outside: names, remarks, what stands in files.</summary>
public static class OutsideText
{
    /// <summary>True for a character that cannot be seen and changes what is seen: it breaks the line, moves the cursor or turns the direction of writing.
    /// The marks that a script of right-to-left words needs inside a word or beside it are none of these.</summary>
    public static bool IsHidden(char c) =>
        char.IsControl(c) || c is '\u2028' or '\u2029' or (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');
}
