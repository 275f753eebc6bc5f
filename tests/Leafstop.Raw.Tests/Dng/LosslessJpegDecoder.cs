namespace Leafstop.Raw.Tests.Dng;

/// <summary>Reads lossless JPEG with predictor 1 the slow way, straight from ITU-T T.81, sharing no code with the writer.</summary>
internal static class LosslessJpegDecoder
{
    public static (ushort[] Samples, int Width, int Height, int Bits) Decode(byte[] jpeg)
    {
        Assert.Equal([0xFF, 0xD8], jpeg[..2]);
        int at = 2, bits = 0, rows = 0, columns = 0, components = 0;
        var codes = new Dictionary<(int Length, int Code), int>();
        while (true)
        {
            Assert.Equal(0xFF, jpeg[at]);
            int marker = jpeg[at + 1], length = jpeg[at + 2] << 8 | jpeg[at + 3];
            var body = jpeg.AsSpan(at + 4, length - 2);
            at += 2 + length;
            if (marker == 0xC3)
            {
                (bits, rows, columns, components) = (body[0], body[1] << 8 | body[2], body[3] << 8 | body[4], body[5]);
            }
            else if (marker == 0xC4)
            {
                int code = 0, symbol = 17;
                for (int l = 1; l <= 16; l++, code <<= 1)
                    for (int i = 0; i < body[l]; i++)
                        codes.Add((l, code++), body[symbol++]);
                Assert.DoesNotContain(codes.Keys, k => k.Code == (1 << k.Length) - 1);
            }
            else if (marker == 0xDA)
            {
                Assert.Equal(1, body[1 + 2 * components]);
                break;
            }
        }
        int width = columns * components, held = 0, bit = 0;
        var samples = new ushort[width * rows];
        int Bit()
        {
            if (bit == 0)
            {
                held = jpeg[at++];
                if (held == 0xFF)
                    Assert.Equal(0, jpeg[at++]);
                bit = 8;
            }
            return held >> --bit & 1;
        }
        for (int y = 0; y < rows; y++)
        {
            for (int x = 0; x < width; x++)
            {
                int prediction = x >= components ? samples[y * width + x - components] : y > 0 ? samples[(y - 1) * width + x] : 1 << (bits - 1);
                int code = Bit(), length = 1, category;
                while (!codes.TryGetValue((length, code), out category))
                    (code, length) = (code << 1 | Bit(), length + 1);
                int extra = 0;
                for (int i = 0; i < category; i++)
                    extra = extra << 1 | Bit();
                if (category > 0 && extra < 1 << (category - 1))
                    extra -= (1 << category) - 1;
                samples[y * width + x] = (ushort)(prediction + extra);
            }
        }
        Assert.Equal([0xFF, 0xD9], jpeg[at..]);
        return (samples, width, rows, bits);
    }
}
