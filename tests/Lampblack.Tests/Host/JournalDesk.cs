using System.Collections.Immutable;
using System.IO;
using System.Text;
using Lampblack.Edits;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Tests.Host;

/// <summary>A desk of one lamp in a folder of its own, and edits of it.</summary>
internal static class JournalDesk
{
    internal const string Text = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n# a lamp 🔥\n[[panel.control]]\nid = \"lamp\"\npart = \"hole-6\"\nat = [20, 20]\nlegend = \"LAMP\"\n[[panel.legend]]\nid = \"word\"\ntext = \"RAIN\"\nat = [80, 40]\n";

    internal static EditResult Move(DeskJournal journal, double dxMm, string item = "lamp") => Edit.Apply(journal.Desk.Source, new MoveItems([new($"p/{item}", dxMm, 0)]));

    internal static string TextOf(ImmutableArray<byte> bytes) => Encoding.UTF8.GetString(bytes.AsSpan());

    internal static string On(WorkFolder work) => File.ReadAllText(work.Below("desk.toml"));

    internal static string Moved(double xMm) => Text.Replace("[20, 20]", System.FormattableString.Invariant($"[{xMm}, 20]"), System.StringComparison.Ordinal);
}
