namespace Leafstop.Core.Judging.Curves;

/// <summary>The shape by which answers turn from one kind to the other.</summary>
public enum SigmoidShape
{
    /// <summary>Normal distribution: many small, independent doubts.</summary>
    Normal,

    /// <summary>Logistic: 1 / (1 + e^−z).</summary>
    Logistic,

    /// <summary>Weibull over a stimulus above zero: 1 − exp(−(x/a)^b); a is the place, b the slope.</summary>
    Weibull,
}
