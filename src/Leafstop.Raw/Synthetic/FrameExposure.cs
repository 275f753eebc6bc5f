namespace Leafstop.Raw.Synthetic;

/// <summary>Exposes one frame, row by row: photons, read noise, smoothing, digitising, and what the camera does to the codes.</summary>
internal sealed class FrameExposure
{
    private readonly SampleOptions _options;
    private readonly PlannedFrame _frame;
    private readonly SensorGeometry _geometry;
    private readonly float[]? _electrons;
    private readonly PixelResponse? _response;
    private readonly HotPixels _hot;
    private readonly double _noise, _inverseGain;
    private readonly float _spreadStep;
    private readonly double _side;
    private readonly ushort[]? _codes;

    public FrameExposure(SampleOptions options, PlannedFrame frame, SensorGeometry geometry)
    {
        (_options, _frame, _geometry) = (options, frame, geometry);
        var truth = frame.Truth;
        if (frame.Role == FrameRole.Scene)
        {
            _electrons = SceneMap.For(options.Width, options.Height, options.Mosaic, options.SceneSeed, frame.ShiftXPx, frame.ShiftYPx).Electrons;
            if (options.PixelResponseSpread > 0)
                _response = PixelResponse.For(options.Width, options.Height);
        }
        _spreadStep = (float)(options.PixelResponseSpread / PixelResponse.StepsPerSigma);
        _hot = new HotPixels(options.Seed, options.Faults.HotPixelShare);
        double digitisedIso = truth.ArithmeticFromIso ?? truth.Iso;
        _noise = BodyA.AnalogueNoiseElectrons(digitisedIso);
        _inverseGain = 1 / BodyA.GainElectronsPerDn(digitisedIso);
        _side = SmoothingKernel.ForCorrelation(truth.SmoothingCorrelation).SideWeight;
        _codes = CodeTable(truth);
    }

    /// <summary>Fills one row, borders included.</summary>
    /// <param name="y">Row in raw coordinates.</param>
    /// <param name="row">The samples of the row.</param>
    /// <param name="analogue">Room for one row.</param>
    public void Expose(int y, Span<ushort> row, Span<double> analogue)
    {
        var random = new SensorRandom(_options.Seed, (ulong)_frame.Index + 1, (ulong)y);
        double offset = _frame.Truth.RowOffsetElectrons * random.NextGaussian();
        bool lit = _electrons is not null && y >= _geometry.Top;
        int dark = lit ? _geometry.Left : row.Length;
        for (int x = 0; x < dark; x++)
            analogue[x] = offset + _noise * random.NextGaussian();
        if (lit)
            Light(y - _geometry.Top, analogue[dark..], offset, ref random);
        _hot.AddTo(analogue[..row.Length], y, ref random);
        if (_side > 0)
            Smooth(analogue[..row.Length], y);
        Digitise(analogue[..row.Length], row);
    }

    private void Light(int y, Span<double> analogue, double offset, ref SensorRandom random)
    {
        var expected = _electrons.AsSpan(y * _geometry.Width, _geometry.Width);
        double scale = _frame.LightScale;
        if (_response is null)
        {
            for (int x = 0; x < expected.Length; x++)
                analogue[x] = offset + random.NextPoisson(expected[x] * scale) + _noise * random.NextGaussian();
            return;
        }
        var response = _response.Steps.AsSpan(y * _geometry.Width, _geometry.Width);
        for (int x = 0; x < expected.Length; x++)
        {
            double mean = expected[x] * scale * (1 + _spreadStep * response[x]);
            analogue[x] = offset + random.NextPoisson(mean) + _noise * random.NextGaussian();
        }
    }

    /// <summary>The kernel over the nearest samples of the same colour in the row; a missing neighbour at the edge is the sample itself.</summary>
    private void Smooth(Span<double> analogue, int y)
    {
        var mosaic = _options.Mosaic;
        int phase = (y - _geometry.Top % mosaic.Rows + mosaic.Rows) % mosaic.Rows * mosaic.Columns;
        var before = new double[analogue.Length];
        analogue.CopyTo(before);
        foreach (char colour in mosaic.Letters.Substring(phase, mosaic.Columns).Distinct())
        {
            int previous = -1, current = -1;
            for (int x = 0; x <= analogue.Length; x++)
            {
                if (x < analogue.Length && mosaic.Letters[phase + (x - _geometry.Left % mosaic.Columns + mosaic.Columns) % mosaic.Columns] != colour)
                    continue;
                if (current >= 0)
                {
                    double left = before[previous >= 0 ? previous : current], right = before[x < analogue.Length ? x : current];
                    analogue[current] = _side * (left + right) + (1 - 2 * _side) * before[current];
                }
                (previous, current) = (current, x);
            }
        }
    }

    private void Digitise(ReadOnlySpan<double> analogue, Span<ushort> row)
    {
        for (int x = 0; x < row.Length; x++)
        {
            // Adding a half and cutting rounds to the nearest code; below zero the cut goes the other way and the clamp takes over.
            double dn = analogue[x] * _inverseGain + (BodyA.BlackDn + 0.5);
            int code = dn >= BodyA.ClipDn ? BodyA.ClipDn : dn <= 0 ? 0 : (int)dn;
            row[x] = (ushort)code;
        }
        if (_codes is null)
            return;
        for (int x = 0; x < row.Length; x++)
            row[x] = _codes[row[x]];
    }

    /// <summary>What the camera makes of each code afterwards: multiplied above black (arithmetic ISO), black taken off and cut; null when nothing.</summary>
    private static ushort[]? CodeTable(LevelTruth truth)
    {
        if (truth.ArithmeticFromIso is null && !truth.BlackClipped)
            return null;
        double factor = truth.ArithmeticFromIso is { } from ? truth.ExactIso / BodyA.ExactIso(from) : 1;
        var table = new ushort[BodyA.ClipDn + 1];
        int taken = BodyA.ClipDn - truth.ClipDn;
        for (int code = 0; code < table.Length; code++)
        {
            double dn = Math.Round(BodyA.BlackDn + (code - BodyA.BlackDn) * factor);
            table[code] = (ushort)Math.Clamp((int)dn - taken, 0, truth.ClipDn);
        }
        return table;
    }
}
