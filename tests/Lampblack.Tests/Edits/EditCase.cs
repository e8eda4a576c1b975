using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>A desk's text, an edit, and the exact text that is to come of it.</summary>
internal sealed record EditCase(string Before, DeskEdit Edit, string After, string Words = "", string Items = "")
{
    public void Check()
    {
        foreach (var mark in new[] { "", "\uFEFF" })
        {
            var old = Encoding.UTF8.GetBytes(mark + Before);
            var result = Apply(old, Edit);
            Assert.Empty(result.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message));
            Assert.Equal(mark + After, Encoding.UTF8.GetString(result.Bytes.AsSpan()));
            AssertChanges(old, result);
            if (Words.Length > 0)
            {
                Assert.Equal(Words, result.Words);
            }

            if (Items.Length > 0)
            {
                Assert.Equal(Items, string.Join(' ', result.Items));
            }
        }
    }

    public static EditResult Apply(byte[] bytes, DeskEdit edit) => Run(bytes, edit);

    public static EditResult Apply(string text, DeskEdit edit) => Run(Encoding.UTF8.GetBytes(text), edit);

    /// <summary>The changes lead from the old bytes to the new ones and back, and lie in ascending order without touching.</summary>
    public static void AssertChanges(byte[] old, EditResult result)
    {
        var now = new List<byte>();
        var back = new List<byte>();
        var (at, behind) = (0, 0);
        foreach (var change in result.Changes)
        {
            Assert.True(change.Offset >= at && (change.Offset > at || at == 0));
            Assert.NotEqual(change.Removed.AsEnumerable(), change.Inserted.AsEnumerable());
            var kept = change.Offset - at;
            Assert.Equal(change.Removed.AsEnumerable(), old.Skip(change.Offset).Take(change.Removed.Length));
            now.AddRange(old.AsSpan(at, kept).ToArray());
            now.AddRange(change.Inserted);
            back.AddRange(result.Bytes.AsSpan(behind, kept).ToArray());
            back.AddRange(change.Removed);
            at = change.Offset + change.Removed.Length;
            behind += kept + change.Inserted.Length;
        }

        now.AddRange(old[at..]);
        back.AddRange(result.Bytes.AsSpan(behind, result.Bytes.Length - behind).ToArray());
        Assert.Equal(result.Bytes.AsEnumerable(), now);
        Assert.Equal(old, back);
    }

    public static string Cost(string text, DeskEdit edit) => Lampblack.Jobs.Edit.Cost(new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(text)], new NoFiles()), edit);

    private static EditResult Run(byte[] bytes, DeskEdit edit) =>
        Lampblack.Jobs.Edit.Apply(new DeskSource("desk.toml", [.. bytes], new NoFiles()), edit);

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
