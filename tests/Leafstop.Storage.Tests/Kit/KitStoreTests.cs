using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Storage.Kit;

namespace Leafstop.Storage.Tests.Kit;

/// <summary>Derived: round trips.</summary>
public sealed class KitStoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private KitStore Store => new(_folder.File);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Nothing_is_kept_at_first_and_asking_makes_no_file()
    {
        Assert.Empty(Store.Lenses());
        Assert.Empty(Store.Tastes());
        Assert.False(_folder.File.Exists);
    }

    [Fact]
    public void What_is_kept_comes_back_in_order_once_and_the_next_takes_its_place()
    {
        Store.KeepLenses([Length.FromMillimetres(70), Length.FromMillimetres(24), Length.FromMillimetres(24)]);
        Store.KeepTastes([Streak.FromPercent(9), Streak.FromPercent(4)]);
        Assert.Equal([24.0, 70.0], Store.Lenses().Select(l => l.Millimetres));
        Assert.Equal([4.0, 9.0], Store.Tastes().Select(t => t.Percent));
        Store.KeepLenses([]);
        Assert.Empty(Store.Lenses());
        Assert.Equal(2, Store.Tastes().Length);
    }
}
