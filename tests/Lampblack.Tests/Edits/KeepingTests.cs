using System.Text;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>Where emitters stand, written into a desk and taken out again, with the exact text that comes of it. All desks are invented.</summary>
public sealed class KeepingTests
{
    private const string Head = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n";
    private const string Kept = "\n  [[panel.emitter]]\n  at = [20, 30]\n  [[panel.emitter]]\n  at = [45.25, 30]\n";

    private static readonly KeepEmitters Two = new("p", [new(20, 30), new(45.25, 30)]);
    private static readonly KeepEmitters None = new("p", []);

    [Fact]
    public void Places_are_written_below_the_panel_and_taken_out_to_the_byte()
    {
        Assert.Equal(Head + Kept, Apply(Head, Two));
        Assert.Equal(Head, Apply(Head + Kept, None));
    }

    [Fact]
    public void Another_panel_below_stays_where_it_is()
    {
        const string Other = "\n# the other\n[[panel]]\nid = \"q\"\nsize = [50, 50]\n";
        Assert.Equal(Head + Kept + Other, Apply(Head + Other, Two));
        Assert.Equal(Head + Other, Apply(Head + Kept + Other, None));
    }

    [Fact]
    public void They_are_indented_as_the_panel_s_items_and_replace_those_that_were_there()
    {
        const string Item = "[[panel.legend]]\ntext = \"A\"\nat = [10, 10]\n";
        Assert.Equal(Head + Item + "\n[[panel.emitter]]\nat = [20, 30]\n[[panel.emitter]]\nat = [45.25, 30]\n", Apply(Head + Item, Two));
        Assert.Equal(Head + Item + "\n[[panel.emitter]]\nat = [20, 30]\n[[panel.emitter]]\nat = [45.25, 30]\n", Apply(Head + Item + "\n[[panel.emitter]]\nat = [1, 2]\nlumen = 3\n", Two));
    }

    [Fact]
    public void A_panel_between_braces_gets_a_list() =>
        Assert.Equal(
            "lampblack = 1\npanel = [{ id = \"p\", size = [120, 60], emitter = [{ at = [20, 30] }, { at = [45.25, 30] }] }]\n",
            Apply("lampblack = 1\npanel = [{ id = \"p\", size = [120, 60] }]\n", Two));

    [Fact]
    public void Nothing_to_take_out_changes_nothing_and_an_unknown_panel_is_refused()
    {
        Assert.Equal(Head, Apply(Head, None));
        Assert.Contains(Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Head)), new KeepEmitters("x", [new(1, 2)])).Findings, finding => finding.Severity == Severity.Stop);
        Assert.Contains(Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Head)), new KeepEmitters("p", [new(1e12, 2)])).Findings, finding => finding.Severity == Severity.Stop);
    }

    private static string Apply(string desk, DeskEdit edit)
    {
        var result = Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), edit);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        return Encoding.UTF8.GetString(result.Bytes.AsSpan());
    }
}
