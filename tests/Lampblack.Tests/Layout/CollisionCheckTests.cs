using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Xunit;

namespace Lampblack.Tests.Layout;

public sealed class CollisionCheckTests
{
    [Fact]
    public void Words_of_two_items_that_collide_many_times_are_told_once_with_their_count()
    {
        var found = Collisions("""
            [[panel.legend]]
            id = "low"
            text = "LOW"
            at = [20, 20]
            row = { count = 5, step = 30 }
            [[panel.legend]]
            id = "high"
            text = "HIGH"
            at = [20, 21]
            row = { count = 5, step = 30 }
            [[panel.legend]]
            id = "single"
            text = "ONE"
            at = [20, 22.5]
            """);
        Assert.Equal(
            [
                "p/low.1: `HIGH` of `p/high.1` and `LOW` of `p/low.1` run into each other (5 times between these two items)",
                "p/single: `HIGH` of `p/high.1` and `ONE` of `p/single` run into each other",
                "p/single: `LOW` of `p/low.1` and `ONE` of `p/single` run into each other",
            ],
            found.Order(System.StringComparer.Ordinal));
    }

    [Fact]
    public void Copies_that_collide_with_each_other_are_told_once_with_their_count() => Assert.Equal(
        ["p/close.2: `CLOSE` of `p/close.1` and `CLOSE` of `p/close.2` run into each other (3 times in this item or its copies)"],
        Collisions("[[panel.legend]]\nid = \"close\"\ntext = \"CLOSE\"\nat = [20, 20]\nrow = { count = 4, step = 5 }"));

    private static string[] Collisions(string items)
    {
        var desk = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes($"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [200, 60]\n{items}\n"));
        Assert.Empty(desk.Findings);
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
        Assert.All(laid.Findings, finding => Assert.Equal((Severity.Warn, "texts-collide"), (finding.Severity, finding.Code)));
        return [.. laid.Findings.Select(finding => $"{finding.Item}: {finding.Message}")];
    }
}
