namespace Leafstop.Web.Tests;

public sealed class HostWishesTests
{
    [Fact]
    public void Everything_that_the_command_line_hands_over_is_read()
    {
        HostWishes wishes = HostWishes.From(["/data", "8100", "--folder", "/a b", "--lan", "--folder", "/c", "--until-input-ends"]);
        Assert.Equal(("/data", 8100, true, true), (wishes.DataFolder, wishes.Port, wishes.IsForNetwork, wishes.EndsWithInput));
        Assert.Equal(["/a b", "/c"], wishes.Folders);
        HostWishes plain = HostWishes.From(["/data"]);
        Assert.Equal((0, false, false), (plain.Port, plain.IsForNetwork, plain.EndsWithInput));
        Assert.Empty(plain.Folders);
    }

    [Theory]
    [InlineData]
    [InlineData("--lan")]
    [InlineData("/data", "70000")]
    [InlineData("/data", "--folder")]
    [InlineData("/data", "--folder", "/a", "more")]
    public void Anything_else_is_refused_in_a_sentence(params string[] args) =>
        Assert.StartsWith("Start this with", Assert.Throws<ArgumentException>(() => HostWishes.From(args)).Message, StringComparison.Ordinal);

    // Derived: 18 random bytes, 144 bits, written in 24 characters that stand in an address as they are.
    [Fact]
    public void Every_host_has_a_key_of_its_own()
    {
        string[] keys = [.. Enumerable.Range(0, 20).Select(_ => HostWishes.From(["/data"]).Key)];
        Assert.Equal(20, keys.Distinct().Count());
        Assert.All(keys, k => Assert.Matches("^[A-Za-z0-9_-]{24}$", k));
    }
}
