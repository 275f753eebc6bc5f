using System.IO.Compression;
using System.Text;
using CsCheck;
using Leafstop.Core.Card;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Card;

public sealed class CardTextTests
{
    private static readonly Gen<double> Positive = Gen.Double[-6.0, 6.0].Select(e => Math.Pow(10, e));
    private static readonly Gen<DateOnly> Days = Gen.Int[0, 60000].Select(d => new DateOnly(1970, 1, 1).AddDays(d));
    private static readonly Gen<string> Names = Gen.String[Gen.Char["abcXYZ 0189-./:*()'\"éßøЖ日"], 1, 30].Select(s => "n" + string.Join(' ', s.Split(' ', StringSplitOptions.RemoveEmptyEntries)));
    private static readonly Gen<Iso> Isos = Gen.OneOf(Gen.Int[0, 36].Select(t => Iso.FromSpeed(100 * Math.Pow(2, t / 3.0))), Gen.Double[1.0, 1e6].Select(Iso.FromSpeed));
    private static readonly Gen<PrintCondition> Prints = Gen.Select(Gen.Double[10, 9999], Gen.Double[10, 9999]).Select(p => new PrintCondition(p.Item1, p.Item2));

    private static readonly Gen<CardText> Cards = Gen.Select(Names, Names, Isos, Days, Prints, Gen.Select(Positive, Positive, Positive).Array[0, 12], Gen.Select(Isos, Isos, Names, Prints, Gen.Int[0, 3], Gen.Bool))
        .Select((name, model, baseIso, day, print, levels, limit) =>
        {
            (Iso one, Iso other, string tag, PrintCondition own, int origin, bool hasRange) = limit;
            (Iso clean, Iso stretch) = one < other ? (one, other) : (other, one);
            return new CardText
            {
                Name = name,
                Camera = new CameraIdentity { Make = "", Model = model, Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 },
                BaseIso = baseIso,
                MeasuredOn = day,
                Levels = [.. levels.Select((l, i) => new CardLevel(Iso.FromSpeed(100 << i), new NoiseModel(l.Item1, l.Item2, l.Item3)))],
                Steps = levels.Length > 2 ? [new CardStep(Iso.FromSpeed(100), Iso.FromSpeed(200))] : [],
                Limits = NoiseLimits.Of(clean, stretch, new LimitTags(tag, hasRange ? own : print, (ToneKind)origin, hasRange ? NoiseTreatment.Usual : NoiseTreatment.None), (LimitOrigin)origin),
                JudgedOn = origin == 0 ? day : null,
                CleanRange = hasRange ? new LimitRange(clean, stretch) : null,
                Print = print,
                MadeOn = day,
            };
        });

    /// <summary>Body A of the job, with limits judged at 60 cm.</summary>
    internal static CardText BodyA { get; } = new()
    {
        Name = "Body A",
        Camera = new CameraIdentity { Make = "Invented", Model = "Body A", Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 },
        BaseIso = Iso.FromMarking(100),
        MeasuredOn = new DateOnly(2026, 3, 1),
        Levels = [Level(100, 3.255, 3.6, 50000), Level(400, 0.8138, 3.1, 12500), Level(500, 0.6459, 1.6, 9921), Level(6400, 0.05086, 1.25, 781.2)],
        Steps = [new CardStep(Iso.FromSpeed(400), Iso.FromSpeed(500))],
        Limits = NoiseLimits.Of(Iso.FromMarking(800), Iso.FromMarking(3200), new LimitTags("Invented Body A, 14-bit raw, 8256 pixels across", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Judged),
        JudgedOn = new DateOnly(2026, 10, 3),
        CleanRange = new LimitRange(Iso.FromMarking(640), Iso.FromMarking(1000)),
        Print = new PrintCondition(600, 600),
        MadeOn = new DateOnly(2026, 11, 26),
    };

    // The text is a contract: this is the page docs/card-text.md shows.
    private const string BodyAText = """
        LEAFSTOP CARD 1
        camera Body A
        body Invented Body A
        pixels 8256x5504 2x2 14
        base 100
        measured 2026-03-01
        step 400 500
        100 3.255 3.6 50000
        400 0.8138 3.1 12500
        500 0.6459 1.6 9921
        6400 0.05086 1.25 781.2
        limits judged 2026-10-03
        clean 800 640 1000
        stretch 3200
        tone smooth
        treatment none
        print 600 600
        made 2026-11-26
        """;

    [Fact]
    public void The_text_is_as_documented() => Assert.Equal(Checked(BodyAText), BodyA.ToString());

    // Derived: reading undoes writing; writing again changes nothing, however lines are broken on the way.
    [Fact]
    public void What_was_written_reads_back_the_same() => Cards.Sample(card =>
    {
        var back = CardText.Parse(card.ToString());
        Assert.Equal(card, back);
        Assert.Equal(card.ToString(), CardText.Parse("\uFEFF" + card.ToString().Replace("\n", "  \r\n", StringComparison.Ordinal) + "\n\n").ToString());
        Assert.Equal(card.Name, back.Name);
        // A mark keeps its exact power; anything else is within a millionth of a stop.
        Assert.Equal(0, back.Limits!.Clean!.Above(card.Limits!.Clean!).Value, 1e-6);
        Assert.Equal((card.Print, card.Limits.Tags.Print, card.Limits.Tags.Body, card.Limits.Tags.Tone, card.Limits.Origin), (back.Print, back.Limits.Tags.Print, back.Limits.Tags.Body, back.Limits.Tags.Tone, back.Limits.Origin));
        // Four figures: half a unit of the fourth.
        Assert.All(card.Levels.Zip(back.Levels), p => Assert.Equal(1, p.Second.Model.ReadNoiseElectrons / p.First.Model.ReadNoiseElectrons, 5.01e-4));
    }, iter: 300);

    // Derived: a card that was changed in one character is refused, or, where only the case of the check changed, says the same.
    [Fact]
    public void A_slip_in_any_one_character_is_noticed() => Gen.Select(Gen.Int[0, Checked(BodyAText).Length - 1], Gen.Char["0123456789abcdefxyz .-"]).Sample((at, slip) =>
    {
        string text = Checked(BodyAText), damaged = text[..at] + slip + text[(at + 1)..];
        if (CardText.TryParse(damaged, out CardText? card, out string why))
            Assert.Equal(BodyA, card);
        else
            Assert.EndsWith(".", why, StringComparison.Ordinal);
    }, iter: 500);

    [Theory]
    [InlineData("", "There is no text of a card here")]
    [InlineData("{ \"format\": \"leafstop-camera\" }", "does not begin with LEAFSTOP CARD")]
    [InlineData("LEAFSTOP CARD one\ncheck 00000000", "is damaged: its first line")]
    [InlineData("LEAFSTOP CARD 2\ncheck 00000000", "is of version 2; this Leafstop reads up to 1")]
    [InlineData("LEAFSTOP CARD 1\ncamera Body A", "is cut off: its last line, 'check', is missing")]
    [InlineData("LEAFSTOP CARD 1\ncamera Body A\ncheck 00000000", "is damaged: its check says 00000000, and its text comes to ")]
    public void What_is_no_card_is_refused_with_the_reason(string text, string reason)
    {
        Assert.False(CardText.TryParse(text, out _, out string why));
        Assert.Contains(reason, why, StringComparison.Ordinal);
        Assert.Equal(why, Assert.Throws<FormatException>(() => CardText.Parse(text)).Message);
    }

    // A whole text with a good check, written by something else: each line that cannot be meant is named.
    [Theory]
    [InlineData("base 100", "base zero", "'base' is an ISO from 1 to 10000000, such as 800, not 'zero'")]
    [InlineData("base 100", "base 0.5", "'base' is an ISO from 1 to 10000000, such as 800, not '0.5'")]
    [InlineData("stretch 3200", "stretch 20000000", "'stretch' is an ISO from 1 to 10000000, such as 800, not '20000000'")]
    [InlineData("print 600 600", "print 9 600", "'print' is the width and the distance of a print in millimetres from 10 to 100000, such as 600 600, not '9 600'")]
    [InlineData("print 600 600", "print 600 100001", "'print' is the width and the distance of a print in millimetres from 10 to 100000")]
    [InlineData("made ", "measured-to 0\nmade ", "'measured-to' is an ISO from 1 to 10000000")]
    [InlineData("pixels 8256x5504 2x2 14\n", "", "'pixels' is missing")]
    [InlineData("base 100\n", "", "'base' is missing")]
    [InlineData("base 100", "base 100\nbase 200", "'base' stands in it twice")]
    [InlineData("pixels 8256x5504 2x2 14", "pixels 8256 2x2 14", "'pixels' is written such as")]
    [InlineData("400 0.8138 3.1 12500", "400 0.8138 3.1", "is no level")]
    [InlineData("step 400 500", "step 500 400", "'step' is the last ISO before")]
    [InlineData("stretch 3200", "stretch 400", "stretch limit lies below the clean one")]
    [InlineData("clean 800 640 1000", "clean 800 640", "'clean' is a limit, alone or with the ends of its interval")]
    [InlineData("tone smooth", "tone silky", "'tone' is one of not-stated, mid-grey, shadows, smooth, textured, not 'silky'")]
    [InlineData("made 2026-11-26", "made 26.11.2026", "'made' is a day")]
    [InlineData("print 600 600", "print -600 600", "'print' is the width and the distance")]
    public void A_line_that_cannot_be_meant_is_named(string from, string to, string reason)
    {
        Assert.False(CardText.TryParse(Checked(BodyAText.Replace(from, to, StringComparison.Ordinal)), out _, out string why));
        Assert.Contains(reason, why, StringComparison.Ordinal);
    }

    // The ends of the range that is told lie in it.
    [Theory]
    [InlineData("base 100", "base 1")]
    [InlineData("stretch 3200", "stretch 10000000")]
    [InlineData("print 600 600", "print 10 100000")]
    public void The_ends_of_a_range_are_read(string from, string to)
    {
        string text = Checked(BodyAText.Replace(from, to, StringComparison.Ordinal));
        Assert.Contains(to, CardText.Parse(text).ToString(), StringComparison.Ordinal);
    }

    // A card of limits alone: no body, no pixels, no level, and none is made up.
    [Fact]
    public void Limits_alone_are_carried_without_a_body()
    {
        PrintCondition print = new(600, 600);
        CardText card = BodyA with
        {
            Name = "Your camera",
            Camera = CardText.NoBody,
            MeasuredOn = null,
            Levels = [],
            Steps = [],
            JudgedOn = null,
            CleanRange = null,
            Limits = NoiseLimits.Of(Iso.FromMarking(800), Iso.FromMarking(3200), new LimitTags("", print, ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given),
        };
        Assert.DoesNotMatch("(?m)^(body|pixels|of) ", card.ToString());
        var back = CardText.Parse(card.ToString());
        Assert.Equal(card, back);
        Assert.Equal((0, "", 800), (back.Camera.Width, back.Camera.ToWords(), back.LimitsFor(print)!.Clean!.Speed));
    }

    [Fact]
    public void A_word_of_a_later_program_is_left_aside() =>
        Assert.Equal(BodyA, CardText.Parse(Checked(BodyAText.Replace("made ", "weather fine\nmade ", StringComparison.Ordinal))));

    [Fact]
    public void A_camera_of_many_levels_is_thinned_until_its_code_stays_small_and_keeps_its_ends_and_its_step()
    {
        CardText many = BodyA with
        {
            Levels = [.. Enumerable.Range(0, 40).Select(i => (Math.Round(100 * Math.Pow(2, i / 4.0)), i)).Select(l => Level(l.Item1, 3.2549 / (1 + l.i), l.i < 10 ? 3.6123 - l.i * 0.05 : 1.6123 - l.i * 0.01, 49876.0 / (1 + l.i)))],
            Steps = [new CardStep(Iso.FromSpeed(476), Iso.FromSpeed(566))],
        };
        CardText fitted = many.Fitted();
        Assert.InRange(fitted.Bytes, CardText.ByteLimit - 60, CardText.ByteLimit - 1);
        double[] isos = [.. fitted.Levels.Select(l => l.Iso.Speed)];
        Assert.All((double[])[100, 476, 566, many.Levels[^1].Iso.Speed], iso => Assert.Contains(iso, isos));
        Assert.Equal(BodyA, BodyA.Fitted());
        Assert.Contains("too long", Assert.Throws<ArgumentException>(() => (BodyA with { Name = new string('n', 800) }).Fitted()).Message, StringComparison.Ordinal);
    }

    // Derived: (distance / width) squared for judged limits; worked-out ones are asked of the levels again, so that 1 and 2 metres are the same print only for the eye.
    [Fact]
    public void Limits_for_another_print_come_as_a_plan_has_them()
    {
        Assert.Equal(800 * Math.Pow(2 / 3.0, 2), BodyA.LimitsFor(new PrintCondition(900, 600))!.Clean!.Speed, 1e-6);
        CameraIdentity body = CardText.Parse(BodyA.ToString()).Camera;
        PrintCondition large = new(2000, 600), asked = new(2400, 600);
        CardText worked = BodyA with { Limits = WorkedOutLimits.Of("Body A", BodyA.Curve!, body, large, LimitTone.MidGrey)!.Limits, JudgedOn = null, CleanRange = null, Print = large };
        Assert.Equal(WorkedOutLimits.Of("Body A", BodyA.Curve!, body, asked, LimitTone.MidGrey)!.Limits, CardText.Parse(worked.ToString()).LimitsFor(asked));
        Assert.Null((BodyA with { Limits = null }).LimitsFor(large));
    }

    private static CardLevel Level(double iso, double gain, double noise, double saturation) => new(Iso.FromSpeed(iso), new NoiseModel(gain, noise, saturation));

    // The same check as gzip writes at the end of a file, from the platform's own compressor.
    private static string Checked(string lines)
    {
        string text = lines.ReplaceLineEndings("\n").TrimEnd('\n') + "\n";
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionLevel.Fastest, leaveOpen: true))
            gzip.Write(Encoding.UTF8.GetBytes(text));
        return $"{text}check {BitConverter.ToUInt32(packed.ToArray(), (int)packed.Length - 8):x8}";
    }
}
