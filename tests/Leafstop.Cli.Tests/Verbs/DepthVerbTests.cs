using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class DepthVerbTests : IDisposable
{
    private static readonly string[] Print = ["--print", "60cm", "--distance", "60cm"];

    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    // Published: DOF-08 (LENSFAQ, value computed): 50 mm f/8 at 5 m with 0.030 mm; DOF-17 (derived): 0.0631313 mm at infinity. Tolerances of the rows.
    [Fact]
    public void The_JSON_holds_limits_hyperfocal_blur_and_diffraction()
    {
        JsonElement root = Json("--focal", "50mm", "--aperture", "8", "--focus", "5m", "--coc", "0.030mm");
        Assert.Equal(10466.667, root.GetProperty("hyperfocalMm").GetDouble(), 1e-3);
        Assert.Equal(3389.371, root.GetProperty("nearMm").GetDouble(), 1e-3);
        Assert.Equal(9527.439, root.GetProperty("farMm").GetDouble(), 1e-3);
        Assert.Equal(6138.068, root.GetProperty("depthMm").GetDouble(), 1e-3);
        Assert.Equal(0.0631313, root.GetProperty("blurAtInfinityMm").GetDouble(), 1e-7);
        Assert.Equal(2.4393398 * 550e-6 * 8 * 5000 / 4950, root.GetProperty("airyMm").GetDouble(), 1e-8);
        Assert.Equal(JsonValueKind.Null, root.GetProperty("print").ValueKind);
        Assert.Empty(root.GetProperty("assumed").EnumerateArray());
    }

    // Published: DOF-09 (literal f/11) beside the mark, which is the power 11.314; DOF-16: far infinite is null.
    [Fact]
    public void A_mark_is_an_exact_power_unless_literal_and_infinity_is_null()
    {
        string[] call = ["--focal", "24mm", "--aperture", "f/11", "--focus", "1.5m", "--coc", "0.030mm"];
        JsonElement literal = Json([.. call, "--literal"]);
        Assert.Equal(1769.455, literal.GetProperty("hyperfocalMm").GetDouble(), 1e-3);
        Assert.Equal(9716.599, literal.GetProperty("farMm").GetDouble(), 1e-3);
        Assert.Equal("literal", literal.GetProperty("apertureRead").GetProperty("as").GetString());
        JsonElement mark = Json(call);
        Assert.Equal(1721, mark.GetProperty("hyperfocalMm").GetDouble(), 0.5);
        Assert.Equal("mark", mark.GetProperty("apertureRead").GetProperty("as").GetString());
        Assert.Equal(JsonValueKind.Null, Json("--focal", "14mm", "--aperture", "8", "--focus", "1m", "--coc", "0.030mm").GetProperty("farMm").ValueKind);
    }

    // Derived: job figures: the fern at 1.8 m, 24 mm focused at 3.4 m: 0.32 mm on the print at f/8 and 0.22 at f/11, for one stop of light.
    [Fact]
    public void F8_or_f11_is_answered_in_print_terms()
    {
        Ended told = _program.Run(["depth", "--focal", "24mm", "--aperture", "f/8", "--focus", "3.4m", "--at", "1.8m", .. Print, "--why"]);
        Assert.Equal((0, ""), (told.Code, told.Error));
        Assert.StartsWith("Sharp from 2 m to 11.4 m on a 60 cm print seen from 60 cm.\nAt 1.8 m a point is 0.32 mm wide on the print; 0.25 mm passes, so it is soft.\n", told.Out, StringComparison.Ordinal);
        Assert.Matches(@"f/8 .* 0\.32 mm .* as asked", told.Out);
        Assert.Matches(@"f/11 .* 0\.22 mm .* −1 stop", told.Out);
        Assert.Contains("an acuity of 1.43′ and a frame of 36 × 24 mm", told.Out, StringComparison.Ordinal);
        Assert.Contains("f/8 is a mark and was read as the power it stands for", told.Out, StringComparison.Ordinal);
        Assert.Contains("[LENSFAQ]", told.Out, StringComparison.Ordinal);
        Assert.All(told.Out.Split('\n'), line => Assert.True(line.Length <= 100, line));
        JsonElement point = Json(["--focal", "24mm", "--aperture", "f/8", "--focus", "3.4m", "--at", "1.8m", .. Print]).GetProperty("points")[0];
        Assert.Equal(0.316, point.GetProperty("blurPrintMm").GetDouble(), 5e-4);
        Assert.False(point.GetProperty("passes").GetBoolean());
    }

    // Derived: DOF-18: 3 to 20 m with 50 mm and 0.020 mm: focus 5217.391 mm, f/17.8797 by geometry.
    [Fact]
    public void Limits_are_answered_with_focus_and_aperture_by_every_method()
    {
        JsonElement root = Json("--focal", "50mm", "--near", "3m", "--far", "20m", "--coc", "0.020mm");
        Assert.Equal(5217.391, root.GetProperty("focusMm").GetDouble(), 1e-3);
        Assert.Equal(17.8797, root.GetProperty("geometry").GetProperty("aperture").GetDouble(), 1e-4);
        double exact = root.GetProperty("exact").GetProperty("aperture").GetDouble();
        double rule = root.GetProperty("rule").GetProperty("aperture").GetDouble();
        Assert.Equal(2 * Math.Log2(exact / rule), root.GetProperty("ruleAboveExactStops").GetDouble(), 1e-9);
        Assert.True(root.GetProperty("exact").GetProperty("contrast").GetDouble() >= root.GetProperty("rule").GetProperty("contrast").GetDouble());
    }

    [Fact]
    public void Limits_in_words_give_the_verdict_first_and_quiet_gives_it_alone()
    {
        string[] call = ["depth", "--focal", "24mm", "--near", "1.8m", "--far", "inf", .. Print];
        Ended told = _program.Run(call);
        Assert.StartsWith("Focus at 3.6 m and set f/13: that holds 1.8 m to infinity sharpest", told.Out, StringComparison.Ordinal);
        Assert.Contains("the rule of practice says f/10.9", told.Out, StringComparison.Ordinal);
        Assert.Contains("Worked out for a perfect thin lens", told.Out, StringComparison.Ordinal);
        Ended quiet = _program.Run([.. call, "--quiet"]);
        Assert.Equal("Focus at 3.6 m and set f/13: that holds 1.8 m to infinity sharpest on a 60 cm print seen from\n60 cm.\n", quiet.Out);
    }

    // Derived: a depth so shallow that any mark holds it, and one that is held by contrast only: geometry asks 35 mm from 2.3 m for f/17.9.
    [Fact]
    public void Shallow_and_hard_depths_say_what_decides()
    {
        Assert.Contains("set any mark up to f/18", _program.Run(["depth", "--focal", "24mm", "--near", "20m", "--far", "inf", .. Print]).Out, StringComparison.Ordinal);
        string hard = _program.Run(["depth", "--focal", "35mm", "--near", "2.3m", "--far", "inf", .. Print]).Out;
        Assert.Contains("At f/14 the blur of the limits is 0.31 mm on the print, where 0.25 mm passes", hard, StringComparison.Ordinal);
        Assert.Contains("Geometry alone asks for f/17.9", hard, StringComparison.Ordinal);
    }

    // Derived: DOF-20: four frames without overlap; a hair nearer than its last limit it takes five.
    [Fact]
    public void Focus_steps_are_those_of_the_contiguous_chain()
    {
        string[] call = ["--focal", "50mm", "--far", "inf", "--aperture", "8", "--coc", "0.020mm", "--overlap", "0"];
        JsonElement[] steps = [.. Json([.. call, "--near", "1978.2255mm"]).GetProperty("steps").EnumerateArray()];
        Assert.Equal(4, steps.Length);
        Assert.Equal(5236.135, steps[1].GetProperty("focusMm").GetDouble(), 0.01);
        Assert.Equal(2629.238, steps[2].GetProperty("nearMm").GetDouble(), 0.01);
        Assert.Equal(JsonValueKind.Null, steps[0].GetProperty("farMm").ValueKind);
        Assert.Equal(5, Json([.. call, "--near", "1978mm"]).GetProperty("steps").GetArrayLength());
        Assert.Contains("moving leaves", _program.Run(["depth", .. call, "--near", "2m"]).Out, StringComparison.Ordinal);
    }

    // Derived: from the mark a lens at life size shows four focal lengths; the limits come back from the mark too.
    [Fact]
    public void Distances_may_be_measured_from_the_focus_mark()
    {
        string[] call = ["--focal", "50mm", "--aperture", "8", "--focus", "200mm", "--coc", "0.030mm", "--at", "200mm", "--from", "mark"];
        JsonElement root = Json(call);
        Assert.Equal("mark", root.GetProperty("measuredFrom").GetString());
        Assert.Equal(200, root.GetProperty("focusMm").GetDouble(), 1e-6);
        Assert.Equal(16, root.GetProperty("effectiveAperture").GetDouble(), 1e-6);
        Assert.Equal(0, root.GetProperty("points")[0].GetProperty("blurMm").GetDouble(), 1e-9);
        Assert.InRange(root.GetProperty("nearMm").GetDouble(), 198, 200);
    }

    // Derived: a crop to two thirds permits two thirds of the blur; a frame 1.5 times smaller does the same.
    [Fact]
    public void Crop_format_and_acuity_change_what_passes()
    {
        string[] call = ["--focal", "24mm", "--aperture", "8", "--focus", "3m", .. Print];
        double Circle(params string[] more) => Json([.. call, .. more]).GetProperty("circleOfConfusionMm").GetDouble();
        double whole = Circle();
        Assert.Equal(0.015, whole, 5e-5);
        Assert.Equal(whole * 2 / 3, Circle("--crop", "2/3"), 1e-12);
        Assert.Equal(whole / 1.5, Circle("--format", "24x16mm"), 1e-12);
        Assert.Equal(0.010472, Circle("--acuity", "1"), 1e-6);
        Assert.Equal(0.010472, Circle("--acuity", "1'"), 1e-6);
    }

    [Theory]
    [InlineData("--focus NaN", "--focus")]
    [InlineData("--focus 0m", "not above zero")]
    [InlineData("--focus -3m", "not below zero")]
    [InlineData("--focus 5", "write mm, cm, m, in or ft")]
    [InlineData("--focus 40mm", "inside the focal length of 50 mm")]
    [InlineData("--focus 150mm --from mark", "four focal lengths")]
    [InlineData("--focus 3m --from tripod", "lens or mark")]
    [InlineData("--focus 1e12m", "write inf")]
    [InlineData("--focus 3m --near 2m", "--focus goes without --near")]
    [InlineData("--near 3m --far 2m", "not nearer than")]
    [InlineData("--near 3m --far 3m", "not nearer than")]
    [InlineData("--near inf --far inf", "--near inf")]
    [InlineData("--near 20mm --far inf", "nearer than a 50 mm lens can focus")]
    [InlineData("--near 3m", "--far is missing")]
    [InlineData("--far inf", "--near is missing")]
    [InlineData("", "--focus is missing")]
    [InlineData("--focus 3m --crop 0", "--crop")]
    [InlineData("--focus 3m --crop 1.5", "--crop")]
    [InlineData("--focus 3m --acuity 0", "--acuity")]
    [InlineData("--focus 3m --acuity 300", "--acuity")]
    [InlineData("--focus 3m --format 36x24", "--format")]
    [InlineData("--focus 3m --format 0x24mm", "--format")]
    [InlineData("--focus 3m --coc 0.03mm", "not both")]
    [InlineData("--focus 3m --overlap 0.3", "--overlap belongs to focus steps")]
    [InlineData("--near 1m --far inf --at 2m", "--at belongs to a focus")]
    [InlineData("--near 1m --far inf --overlap 0.99", "--overlap")]
    [InlineData("--focus 3m --at 10mm --from mark", "inside the camera")]
    public void A_wrong_call_is_refused_in_one_sentence(string more, string sentence) =>
        Refused(2, sentence, ["--focal", "50mm", "--aperture", "8", .. Print, .. Words(more)]);

    [Theory]
    [InlineData("--aperture 8 --focus 5m --coc 0.03mm", "--focal is missing")]
    [InlineData("--focal 0mm --aperture 8 --focus 5m --coc 0.03mm", "--focal")]
    [InlineData("--focal 50mm --focus 5m --coc 0.03mm", "--aperture is missing")]
    [InlineData("--focal 50mm --aperture 0.1 --focus 5m --coc 0.03mm", "f/0.1 cannot be built")]
    [InlineData("--focal 50mm --aperture 0 --focus 5m --coc 0.03mm", "not above zero")]
    [InlineData("--focal 50mm --aperture NaN --focus 5m --coc 0.03mm", "f/11")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m", "How sharp is sharp enough?")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --print 60cm", "--distance is missing")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --distance 60cm", "--print is missing")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --print 60cm --distance 1mm", "between 1 cm and 100 m")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --coc 0mm", "--coc")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --coc 9mm", "as wide as the opening")]
    public void What_is_missing_or_absurd_is_refused_in_one_sentence(string call, string sentence) => Refused(2, sentence, Words(call));

    [Theory]
    [InlineData("--focal 100mm --near 1m --far inf", "no aperture of a 100 mm lens holds 1 m to infinity")]
    [InlineData("--focal 100mm --near 1m --far inf --aperture f/90", "diffraction alone")]
    [InlineData("--focal 600mm --near 1m --far inf --aperture f/2", "more than 500 frames")]
    public void An_impossible_depth_is_refused_in_one_sentence(string call, string sentence) => Refused(3, sentence, [.. Words(call), .. Print]);

    // Extremes that are no refusal end in an answer, never in a fault.
    [Theory]
    [InlineData("--focal 1mm --aperture 0.5 --focus inf --coc 1mm")]
    [InlineData("--focal 10m --aperture 0.5 --focus 11m --coc 10mm")]
    [InlineData("--focal 50mm --aperture 1000 --focus 1000000km --coc 0.03mm")]
    [InlineData("--focal 50mm --aperture 8 --focus 5m --coc 1e-9mm")]
    [InlineData("--focal 24mm --near 999999999m --far inf --coc 0.03mm")]
    [InlineData("--focal 24mm --near 3m --far 3.0000001m --coc 0.03mm")]
    public void Extremes_never_end_in_a_fault(string call) =>
        Assert.NotEqual(1, _program.Run(["depth", .. Words(call), "--json"]).Code);

    private static string[] Words(string call) => call.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private void Refused(int code, string sentence, string[] call)
    {
        Ended ended = _program.Run(["depth", .. call]);
        Assert.Equal((code, ""), (ended.Code, ended.Out));
        Assert.Contains(sentence, ended.Error, StringComparison.Ordinal);
        Assert.StartsWith("leafstop: ", ended.Error, StringComparison.Ordinal);
        Assert.Equal(1, ended.Error.Count(c => c == '\n'));
    }

    private JsonElement Json(params string[] call)
    {
        Ended ended = _program.Run(["depth", .. call, "--json"]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        using JsonDocument json = JsonDocument.Parse(ended.Out);
        return json.RootElement.Clone();
    }
}
