using Leafstop.Pocket.Data;

namespace Leafstop.Pocket.Tests;

/// <summary>Derived: RFC 8259, and what the page writes is what it reads.</summary>
public sealed class JsonReadingTests
{
    [Fact]
    public void Every_kind_of_value_is_read()
    {
        Dictionary<string, object?> read = JsonReading.Object(" { \"a\" : [ 1 , -2.5e-3 , true , false , null , {} , [] ] , \"b\\u003C\\\"\\\\\\/\\n\" : \"\\ud83c\\udf43 é\" } ")!;
        Assert.Equal([1.0, -2.5e-3, true, false, null], ((List<object?>)read["a"]!)[..5]);
        Assert.Equal("🍃 é", read["b<\"\\/\n"]);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{")]
    [InlineData("{\"a\":1,}")]
    [InlineData("{\"a\" 1}")]
    [InlineData("{a:1}")]
    [InlineData("{\"a\":1}x")]
    [InlineData("{\"a\":tru}")]
    [InlineData("{\"a\":--1}")]
    [InlineData("{\"a\":1e999}")]
    [InlineData("{\"a\":\"\\x\"}")]
    [InlineData("{\"a\":\"\\u12\"}")]
    [InlineData("{\"a\":\"line\nbreak\"}")]
    [InlineData("{\"a\":\"no end")]
    [InlineData("{\"a\":[1,2")]
    public void What_is_no_object_is_as_if_it_were_not_there(string text) => Assert.Null(JsonReading.Object(text));

    [Fact]
    public void Depth_has_an_end() => Assert.Null(JsonReading.Object("{\"a\":" + new string('[', 100_000)));

    [Fact]
    public void What_is_written_is_read_back()
    {
        string text = new JsonWriting().Open('{').Text("name", "a \"b\" \\ \n\t\u0001 é <").Number("third", 1 / 3.0).Number("far", double.PositiveInfinity).Truth("on", true)
            .Optional("none", null).Open('[', "list").Number("", 1).Text("", "two").Close(']').Open('{', "inner").Close('}').Truth("last", false).Close('}').ToString();
        Assert.DoesNotContain('\n', text);
        Entry read = new(JsonReading.Object(text)!);
        Assert.Equal("a \"b\" \\ \n\t\u0001 é <", read.Text("name"));
        Assert.Equal(1 / 3.0, read.Within("third", 0, 1));
        Assert.Equal(double.PositiveInfinity, read.Within("far", 0, double.PositiveInfinity));
        Assert.Null(read.Within("far", 0, 1e9));
        Assert.True(read.Truth("on") && !read.Truth("last") && !read.Truth("none"));
        Assert.Equal([1.0], read.Numbers("list"));
        Assert.Equal(["two"], read.Texts("list"));
        Assert.NotNull(read.Inner("inner"));
    }
}
