using System.IO;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class ExchangeTests
{
    [Fact]
    public void Taking_back_restores_replaced_new_and_removed_files()
    {
        using WorkFolder work = new();
        work.Put("replaced.txt", "old");
        work.Put("removed.txt", "gone?");
        work.Put("fresh1", "new");
        work.Put("fresh2", "newer");
        Exchange exchange = new();
        exchange.TakeAway(work.Below("removed.txt"));
        exchange.Put(work.Below("fresh1"), work.Below("replaced.txt"));
        exchange.Put(work.Below("fresh2"), work.Below("added.txt"));
        Assert.Equal("new", work.Text("replaced.txt"));
        Assert.Equal("newer", work.Text("added.txt"));
        Assert.False(File.Exists(work.Below("removed.txt")));

        Assert.True(exchange.TakeBack());
        Assert.Equal(["removed.txt", "replaced.txt"], work.Files());
        Assert.Equal("old", work.Text("replaced.txt"));
        Assert.Equal("gone?", work.Text("removed.txt"));
    }

    [Fact]
    public void Keeping_leaves_nothing_of_the_old()
    {
        using WorkFolder work = new();
        work.Put("replaced.txt", "old");
        work.Put("removed.txt", "gone");
        work.Put("fresh", "new");
        Exchange exchange = new();
        exchange.TakeAway(work.Below("removed.txt"));
        exchange.Put(work.Below("fresh"), work.Below("replaced.txt"));
        exchange.Keep();
        Assert.Equal(["replaced.txt"], work.Files());
    }
}
