using System.Numerics;

namespace Leafstop.Raw.Synthetic;

/// <summary>The bench on the kitchen table: a lamp from the upper right, a box lined with black cloth, grey cards, step and ramp strips, colour cards, bark, moss and a string of small lights.</summary>
/// <remarks>
/// Light is relative to metered mid-grey (1 = 0 EV on the mid-grey card) in red, green, blue of a neutral lamp; the sensor's view of the lamp comes later.
/// Scene coordinates: x from 0 to 1.5, y from 0 to 1 downwards. All of it is invented.
/// </remarks>
internal sealed class BenchScene
{
    private readonly List<SceneObject> _objects = [];

    internal delegate Vector3 Painter(in Brush brush, double x, double y, Vector3 under);

    private sealed record SceneObject(double Left, double Top, double Right, double Bottom, Painter Paint);

    /// <summary>The one bench.</summary>
    public static BenchScene Instance { get; } = new();

    private BenchScene()
    {
        Add(-1, -1, 3, 3, WallAndTable);
        Add(-0.3, -0.1, 0.76, 0.90, BoxShadow);
        Add(0.0, 0.08, 0.60, 0.70, ClothBox);
        Add(-0.06, 0.46, 0.62, 0.94, ClothSpill);
        Card(0.715, 0.272, 0.080, 0.118, -0.06, 2.25f, new(1, 1, 0.98f));
        Card(1.115, 0.300, 0.082, 0.102, 0.05, -2.1f, new(1, 1, 1));
        Card(0.915, 0.275, 0.105, 0.130, 0.015, 0f, new(1, 1, 1));
        Add(0.52, 0.42, 1.60, 0.67, Strips);
        Add(0.50, 0.58, 1.28, 0.79, ColourCards);
        Add(0.38, 0.64, 1.20, 1.15, BarkLog);
        Add(0.78, 0.53, 1.90, 1.20, MossDish);
        Add(0.50, 0.00, 1.50, 0.30, LightString);
    }

    /// <summary>The objects that reach into a rectangle, bottom first. Bounds hold an object with its shadows; the blur of its edges comes on top.</summary>
    public Tile TileAt(in Brush brush, double left, double top, double right, double bottom)
    {
        double reach = brush.Reach;
        return new([.. _objects
            .Where(o => o.Left - reach <= right && o.Right + reach >= left && o.Top - reach <= bottom && o.Bottom + reach >= top)
            .Select(o => o.Paint)]);
    }

    /// <summary>A part of the scene with only the objects that matter there.</summary>
    public readonly struct Tile
    {
        private readonly Painter[] _painters;

        internal Tile(Painter[] painters) => _painters = painters;

        /// <summary>Light at a point.</summary>
        public Vector3 LightAt(in Brush brush, double x, double y)
        {
            var light = Vector3.Zero;
            foreach (var paint in _painters)
                light = paint(brush, x, y, light);
            return light;
        }
    }

    private void Add(double left, double top, double right, double bottom, Painter paint) => _objects.Add(new(left, top, right, bottom, paint));

    // Outside its shape an object's formula may run away; there its coverage is 0, and 0 times a bounded number stays 0.
    private static float Ev(double ev) => (float)Math.Pow(2, Math.Clamp(ev, -20, 10));

    private static Vector3 Over(Vector3 under, Vector3 colour, double coverage) => Vector3.Lerp(under, colour, (float)coverage);

    private static Vector3 WallAndTable(in Brush brush, double x, double y, Vector3 under)
    {
        double wallDistance = Math.Sqrt((x - 1.10) * (x - 1.10) + (y - 0.16) * (y - 0.16) * 1.6);
        double wallEv = 0.55 - 2.6 * Math.Pow(wallDistance / 0.85, 1.4) + 0.04 * brush.Noise(x, y, 0.35, 0.3, 1);
        var wall = new Vector3(0.98f, 1f, 0.93f) * Ev(wallEv);
        double tableDistance = Math.Sqrt((x - 1.02) * (x - 1.02) + (y - 0.58) * (y - 0.58) * 2.2);
        double plank = Math.Floor((y - 0.44 + 0.03) / 0.19), along = x + 0.37 * plank;
        double grain = 0.42 * brush.Fractal(along, y, 0.30, 0.011, 4, 11) + 0.22 * brush.Fractal(along, y + 0.02 * brush.Noise(along, y, 0.2, 0.1, 17), 0.6, 0.035, 2, 15);
        double seam = Math.Abs((y - 0.44 + 0.03) / 0.19 - plank - 0.5) * 0.19;
        double tableEv = -0.95 - 2.1 * Math.Pow(tableDistance / 0.9, 1.5) + grain + 0.25 * (plank % 2) - 1.6 * brush.Edge(seam - 0.0925, 0.0012);
        var table = new Vector3(1.28f, 1f, 0.60f) * Ev(tableEv);
        // Where the wall meets the table no light comes from: a soft dark line.
        double gap = 1 - 0.55 * Math.Exp(-Math.Pow((y - 0.442) / 0.012, 2));
        return Over(wall, table, brush.Edge(y - 0.44)) * (float)gap;
    }

    private static Vector3 BoxShadow(in Brush brush, double x, double y, Vector3 under)
    {
        double shade = brush.Rectangle(x, y, 0.265, 0.40, 0.245, 0.25, 0, out _, out _, 0.03);
        return under * (float)(1 - 0.85 * shade);
    }

    private static Vector3 ClothBox(in Brush brush, double x, double y, Vector3 under)
    {
        double board = brush.Rectangle(x, y, 0.285, 0.375, 0.245, 0.245, 0, out double u, out double v);
        double boardEv = -2.9 + 1.1 * u - 0.8 * v + 0.06 * brush.Fractal(x, y, 0.004, 0.06, 2, 21);
        var result = Over(under, new Vector3(1.16f, 1f, 0.72f) * Ev(boardEv), board);
        double opening = brush.Rectangle(x, y, 0.285, 0.370, 0.221, 0.217, 0, out u, out v);
        // The lining: very dark, smooth, with slow folds; a little light comes in over the front lip on the lamp's side.
        double folds = 0.22 * Math.Sin(38 * x + 2.2 * brush.Noise(x, y, 0.3, 0.25, 23)) + 0.12 * brush.Noise(x, y, 0.1, 0.2, 25);
        double lip = Math.Exp(-(0.217 - v) / 0.022) * 2.2 + Math.Exp(-(u + 0.221) / 0.02) * 0.9;
        return Over(result, new Vector3(1.02f, 1f, 1.05f) * Ev(-8.5 + folds + lip), opening);
    }

    private static Vector3 ClothSpill(in Brush brush, double x, double y, Vector3 under)
    {
        double hem = 0.775 + 0.035 * Math.Sin(17 * x + 0.6) + 0.02 * Math.Sin(41 * x);
        double left = 0.105 - 0.25 * (y - 0.575) + 0.008 * Math.Sin(30 * y), right = 0.445 + 0.22 * (y - 0.575) + 0.008 * Math.Sin(26 * y);
        double from = Math.Min(Math.Min(x - left, right - x), Math.Min(hem - y, y - 0.578));
        double shadow = brush.Edge(from + 0.006, 0.012);
        double bend = x - 0.275, spread = 1 + 0.9 * (y - 0.575);
        double fold = Math.Sin(62 * bend / spread + 1.5 * brush.Noise(x, y, 0.15, 0.2, 33));
        double ev = -6.4 + 5.0 * (y - 0.575) + 1.6 * bend + 0.9 * fold + 0.35 * fold * fold + 0.05 * brush.Fractal(x, y, 0.006, 0.006, 2, 35);
        var cloth = new Vector3(1.02f, 1f, 1.04f) * Ev(ev);
        return Over(under * (float)(1 - 0.7 * shadow), cloth, brush.Edge(from));
    }

    private void Card(double cx, double cy, double a, double b, double angle, float ev, Vector3 colour)
    {
        Add(cx - a - 0.10, cy - b - 0.08, cx + a + 0.08, cy + b + 0.09, (in Brush brush, double x, double y, Vector3 under) =>
        {
            // The lamp is at the upper right, so the shadow falls to the lower left.
            double shadow = brush.Rectangle(x, y, cx - 0.018, cy + 0.010, a, b, angle, out _, out _, 0.008);
            double card = brush.Rectangle(x, y, cx, cy, a, b, angle, out double u, out double v);
            return Over(under * (float)(1 - 0.6 * shadow), colour * Ev(ev + 0.25 * u - 0.15 * v), card);
        });
    }

    private static Vector3 Strips(in Brush brush, double x, double y, Vector3 under)
    {
        double shadow = brush.Rectangle(x, y, 1.008, 0.546, 0.432, 0.064, -0.008, out _, out _, 0.005);
        double mount = brush.Rectangle(x, y, 1.012, 0.541, 0.432, 0.064, -0.008, out double u, out double v);
        var result = Over(under * (float)(1 - 0.5 * shadow), new Vector3(1f, 1f, 0.95f) * Ev(1.35 + 0.2 * u), mount);

        // Twelve steps of half a stop, then below it one continuous ramp over 8 stops.
        const double half = 0.415;
        double at = (u + half) / (2 * half) * 12, step = Math.Clamp(Math.Floor(at), 0, 11);
        double width = 2 * half / 12;
        double fromBefore = step > 0 ? brush.Edge((at - step) * width) - 1 : 0, toNext = step < 11 ? brush.Edge((at - step - 1) * width) : 0;
        double stepEv = 2.2 - 0.5 * (step + fromBefore + toNext);
        double steps = brush.Edge(half - Math.Abs(u)) * brush.Edge(0.025 - Math.Abs(v + 0.028));
        result = Over(result, new Vector3(Ev(stepEv)), steps);
        double ramp = brush.Edge(half - Math.Abs(u)) * brush.Edge(0.023 - Math.Abs(v - 0.030));
        return Over(result, new Vector3(Ev(2.3 - 8 * Math.Clamp((u + half) / (2 * half), 0, 1))), ramp);
    }

    private static readonly Vector3[] CardColours =
    [
        new(0.34f, 0.62f, 0.16f), new(1.05f, 0.62f, 0.10f), new(0.95f, 0.22f, 0.12f), new(0.16f, 0.30f, 0.72f),
        new(0.62f, 0.20f, 0.55f), new(0.18f, 0.55f, 0.62f), new(1.25f, 1.10f, 0.30f), new(0.55f, 0.36f, 0.22f),
    ];

    private static Vector3 ColourCards(in Brush brush, double x, double y, Vector3 under)
    {
        var result = under;
        for (int i = 0; i < CardColours.Length; i++)
        {
            double cx = 0.632 + 0.077 * i, cy = 0.683 - 0.0006 * i, angle = 0.035 * Math.Sin(2.4 * i);
            if (Math.Abs(x - cx) > 0.075 + brush.Reach)
                continue;
            double shadow = brush.Rectangle(x, y, cx - 0.004, cy + 0.005, 0.033, 0.036, angle, out _, out _, 0.004);
            double card = brush.Rectangle(x, y, cx, cy, 0.033, 0.036, angle, out double u, out double v);
            result = Over(result * (float)(1 - 0.5 * shadow), CardColours[i] * Ev(0.35 + u), card);
        }
        return result;
    }

    private static Vector3 BarkLog(in Brush brush, double x, double y, Vector3 under)
    {
        const double angle = -0.13;
        double shadow = brush.Rectangle(x, y, 0.785, 0.895, 0.235, 0.060, angle, out _, out _, 0.018);
        double body = brush.Rectangle(x, y, 0.790, 0.850, 0.235, 0.068 + 0.004 * brush.Noise(x, 0, 0.03, 1, 51), angle, out double u, out double v);
        double round = Math.Clamp(v / 0.068, -0.999, 0.999);
        double warp = 0.012 * brush.Noise(u, v, 0.05, 0.03, 53);
        double wrapped = 0.06 * Math.Asin(round) + warp;
        double ridge = brush.Fractal(u, wrapped, 0.045, 0.011, 4, 55, 0.65);
        double furrow = Math.Abs(brush.Noise(u + 3 * warp, wrapped, 0.085, 0.016, 61));
        double ev = -1.5 - 1.3 * (round + 0.45) * (round + 0.45) + 0.75 * ridge - 1.6 * Math.Exp(-furrow * furrow / 0.012);
        var result = Over(under * (float)(1 - 0.8 * shadow), new Vector3(1.22f, 1f, 0.68f) * Ev(ev), body);

        // The sawn end with its rings.
        double ex = 0.790 + 0.235 * Math.Cos(angle), ey = 0.850 + 0.235 * Math.Sin(angle);
        double end = brush.Ellipse(x, y, ex, ey, 0.026, 0.0675, out double radius);
        double rings = Math.Sin(52 * radius + 3 * brush.Noise(x, y, 0.03, 0.05, 63));
        double endEv = -0.15 + 0.16 * rings * Math.Clamp(0.0014 / brush.BlurUnits, 0, 1) + 0.2 * brush.Fractal(x, y, 0.008, 0.008, 2, 65) - 1.2 * brush.Edge((radius - 0.93) * 0.05);
        return Over(result, new Vector3(1.22f, 1f, 0.62f) * Ev(endEv), end);
    }

    private static Vector3 MossDish(in Brush brush, double x, double y, Vector3 under)
    {
        const double cx = 1.275, cy = 0.835;
        double shadow = brush.Ellipse(x, y, cx - 0.025, cy + 0.022, 0.190, 0.128, out _, 0.022);
        double rim = brush.Ellipse(x, y, cx, cy, 0.182, 0.122, out double radius);
        double rimEv = 0.55 + 0.5 * (x - cx) / 0.18 - 0.9 * (y - cy) / 0.12 - 0.5 * brush.Edge((radius - 0.97) * 0.1, 0.003);
        var result = Over(under * (float)(1 - 0.7 * shadow), new Vector3(0.90f, 1f, 1.04f) * Ev(rimEv), rim);

        double ragged = 0.020 * brush.Fractal(x, y, 0.022, 0.022, 3, 71);
        double moss = brush.Ellipse(x, y + 0.004, cx, cy, 0.166 + ragged, 0.107 + ragged, out _);
        double clump = brush.Fractal(x, y, 0.055, 0.045, 2, 73);
        double fronds = brush.Fractal(x + 0.006 * clump, y, 0.0085, 0.0075, 4, 75, 0.72);
        double ev = -1.7 + 0.7 * clump + 1.0 * fronds + 0.8 * (x - cx) / 0.17 - 0.7 * (y - cy) / 0.11;
        float dry = (float)(0.35 * brush.Noise(x, y, 0.03, 0.03, 79));
        return Over(result, new Vector3(0.72f + dry, 1f, 0.34f) * Ev(ev), moss);
    }

    private static Vector3 LightString(in Brush brush, double x, double y, Vector3 under)
    {
        double wireY = WireAt(x);
        double wire = brush.Edge(0.0011 - Math.Abs(y - wireY)) * brush.Edge(x - 0.56) * 0.8;
        var result = Over(under, under * 0.25f, wire);
        for (int i = 0; i < 9; i++)
        {
            double cx = 0.605 + 0.106 * i, cy = WireAt(cx) + 0.016;
            double dx = x - cx, dy = y - cy, distance = Math.Sqrt(dx * dx + dy * dy);
            if (distance > 0.13 + brush.Reach)
                continue;
            double cap = brush.Rectangle(x, y, cx, cy - 0.011, 0.0042, 0.006, 0, out _, out _);
            result = Over(result, new Vector3(0.3f), cap);
            float glow = (float)(0.35 * Math.Exp(-distance * distance / (2 * 0.018 * 0.018)) * brush.Edge(0.08 - distance, 0.006));
            result += new Vector3(0.9f, 1f, 0.85f) * glow;
            double bulb = brush.Edge(0.0088 - distance);
            result = Over(result, new Vector3(1.5f, 1f, 1.7f) * Ev(4.75), bulb);
        }
        return result;
    }

    private static double WireAt(double x)
    {
        double t = (x - 0.56) / 0.47;
        double span = t - Math.Floor(t);
        return 0.035 + 0.045 * 4 * span * (1 - span);
    }
}
