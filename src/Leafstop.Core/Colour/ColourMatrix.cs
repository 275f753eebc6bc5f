namespace Leafstop.Core.Colour;

/// <summary>A 3 × 3 matrix between colour spaces; its rows make the three numbers of the outcome.</summary>
/// <param name="M11">Row 1, column 1.</param>
/// <param name="M12">Row 1, column 2.</param>
/// <param name="M13">Row 1, column 3.</param>
/// <param name="M21">Row 2, column 1.</param>
/// <param name="M22">Row 2, column 2.</param>
/// <param name="M23">Row 2, column 3.</param>
/// <param name="M31">Row 3, column 1.</param>
/// <param name="M32">Row 3, column 2.</param>
/// <param name="M33">Row 3, column 3.</param>
public readonly record struct ColourMatrix(
    double M11, double M12, double M13,
    double M21, double M22, double M23,
    double M31, double M32, double M33)
{
    /// <summary>Leaves a colour as it is.</summary>
    public static readonly ColourMatrix Identity = Diagonal(1, 1, 1);

    /// <summary>Scales each of the three by its own factor.</summary>
    public static ColourMatrix Diagonal(double first, double second, double third) => new(first, 0, 0, 0, second, 0, 0, 0, third);

    /// <summary>The element of a row and a column.</summary>
    /// <param name="row">0 to 2.</param>
    /// <param name="column">0 to 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such element.</exception>
    public double this[int row, int column] => (row, column) switch
    {
        (0, 0) => M11,
        (0, 1) => M12,
        (0, 2) => M13,
        (1, 0) => M21,
        (1, 1) => M22,
        (1, 2) => M23,
        (2, 0) => M31,
        (2, 1) => M32,
        (2, 2) => M33,
        _ => throw new ArgumentOutOfRangeException(nameof(row), (row, column), "A colour matrix has three rows and three columns, counted from 0."),
    };

    /// <summary>The three numbers after the matrix.</summary>
    public (double First, double Second, double Third) Apply(double first, double second, double third) => (
        M11 * first + M12 * second + M13 * third,
        M21 * first + M22 * second + M23 * third,
        M31 * first + M32 * second + M33 * third);

    /// <summary>Two matrices in one: the right one is applied first.</summary>
    public static ColourMatrix operator *(ColourMatrix left, ColourMatrix right)
    {
        var (a, d, g) = left.Apply(right.M11, right.M21, right.M31);
        var (b, e, h) = left.Apply(right.M12, right.M22, right.M32);
        var (c, f, i) = left.Apply(right.M13, right.M23, right.M33);
        return new ColourMatrix(a, b, c, d, e, f, g, h, i);
    }

    /// <summary>The matrix that undoes this one.</summary>
    /// <exception cref="InvalidOperationException">Nothing undoes it: two colours become one.</exception>
    public ColourMatrix Inverse()
    {
        double a = M22 * M33 - M23 * M32, b = M23 * M31 - M21 * M33, c = M21 * M32 - M22 * M31;
        double determinant = M11 * a + M12 * b + M13 * c;
        if (!double.IsFinite(determinant) || determinant == 0)
            throw new InvalidOperationException("This colour matrix cannot be undone: its determinant is zero.");
        return new ColourMatrix(
            a / determinant, (M13 * M32 - M12 * M33) / determinant, (M12 * M23 - M13 * M22) / determinant,
            b / determinant, (M11 * M33 - M13 * M31) / determinant, (M13 * M21 - M11 * M23) / determinant,
            c / determinant, (M12 * M31 - M11 * M32) / determinant, (M11 * M22 - M12 * M21) / determinant);
    }
}
