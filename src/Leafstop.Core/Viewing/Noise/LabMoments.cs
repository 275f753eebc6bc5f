using Leafstop.Core.Colour;

namespace Leafstop.Core.Viewing;

/// <summary>Weighted mean and spread of colours in CIELAB, gathered one by one.</summary>
internal struct LabMoments
{
    private double _weight, _l, _a, _b, _ll, _aa, _bb, _la;

    public void Add(Lab colour, double weight)
    {
        _weight += weight;
        double l = colour.L - _l, a = colour.A - _a, b = colour.B - _b, share = weight / _weight;
        _l += l * share;
        _a += a * share;
        _b += b * share;
        _ll += weight * l * (colour.L - _l);
        _aa += weight * a * (colour.A - _a);
        _bb += weight * b * (colour.B - _b);
        _la += weight * l * (colour.A - _a);
    }

    public readonly VisibleNoise Seen() => new(Root(_ll / _weight), Root(_aa / _weight), Root(_bb / _weight), _la / _weight);

    private static double Root(double variance) => Math.Sqrt(Math.Max(0, variance));
}
