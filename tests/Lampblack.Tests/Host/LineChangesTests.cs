using System.Collections.Immutable;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class LineChangesTests
{
    private static readonly string[] Kinds = ["a\n", "b\n", "c\r\n", "é", "\n", "id = \"x\"\n"];

    [Fact]
    public void The_changes_lead_from_one_file_to_the_other_and_back()
    {
        Gen<byte[]> file = Gen.Int[0, 5].Array[0, 40].Select(lines => Encoding.UTF8.GetBytes(string.Concat(lines.Select(line => Kinds[line]))));
        Gen.Select(file, file).Sample(
            (old, now) =>
            {
                var changes = LineChanges.Between([.. old], [.. now]);
                Assert.Equal(now, ByteChanges.Apply([.. old], changes)!.Value.ToArray());
                Assert.Equal(old, ByteChanges.Apply([.. now], ByteChanges.Inverse(changes))!.Value.ToArray());
            },
            iter: 3000);
    }

    [Fact]
    public void Lines_between_what_was_changed_are_left_out()
    {
        var changes = LineChanges.Between(Bytes("a\nb\nc\nd\ne\n"), Bytes("x\na\nb\nc\ne\nf\n"));
        Assert.Equal([(0, "", "x\n"), (6, "d\n", ""), (10, "", "f\n")], changes.Select(change => (change.Offset, Text(change.Removed), Text(change.Inserted))));
    }

    [Fact]
    public void Files_of_which_nearly_everything_differs_are_one_change() => Assert.Single(LineChanges.Between(
        Bytes(string.Concat(Enumerable.Range(0, 900).Select(n => $"{n}\n"))), Bytes(string.Concat(Enumerable.Range(0, 900).Select(n => $"{-n - 1}\n")))));

    private static ImmutableArray<byte> Bytes(string text) => [.. Encoding.UTF8.GetBytes(text)];

    private static string Text(ImmutableArray<byte> bytes) => Encoding.UTF8.GetString(bytes.AsSpan());
}
