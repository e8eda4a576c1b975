using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Tests.Architecture;

/// <summary>
/// A little core of three folders for planting offences: Geometry may use Layout, Layout may use Jobs, Geometry must not use Jobs.
/// It is clean as it stands.
/// </summary>
internal static class Planted
{
    public const string Path = "src/Lampblack/Geometry/Planted.cs";

    /// <summary>Stands on the line of the offence.</summary>
    public const string Mark = "HERE";

    public const string Head = "| folder | holds | may use | libraries | why |\n|---|---|---|---|---|\n";

    public const string Table = Head + "| Geometry | | Layout | - | |\n| Layout | | Jobs | - | |\n| Jobs | | - | - | |\n";

    private const string Jobs = """
        using System;
        using System.Collections;
        using System.Runtime.CompilerServices;
        using System.Threading.Tasks;
        namespace Lampblack.Jobs;
        public static class Build
        {
            public const int Dpi = 600;
            public static int Calls { get; set; }
            public static int Run() => 1;
            public static int Twice(this int number) => 2 * number;
            extension(int number)
            {
                public int Half => number / 2;
            }
        }
        public enum Side { Front, Back }
        public interface IStep;
        [AttributeUsage(AttributeTargets.All)] public sealed class MarkAttribute : Attribute;
        public class Base;
        public delegate int Pick(int number);
        public sealed record Sheet(int Number, string Title) : IDisposable
        {
            public int this[int index] => index;
            public static Sheet operator +(Sheet first, Sheet second) => first;
            public static Sheet operator -(Sheet sheet) => sheet;
            public static implicit operator int(Sheet sheet) => sheet.Number;
            public static explicit operator string(Sheet sheet) => sheet.Title;
            public TaskAwaiter<int> GetAwaiter() => Task.FromResult(1).GetAwaiter();
            public static Sheet operator ++(Sheet sheet) => sheet;
            public Sheet Select(Func<int, int> map) => this;
            public Sheet Where(Func<int, bool> judge) => this;
            public Sheet OrderBy(Func<int, int> key) => this;
            public IEnumerator GetEnumerator() => Array.Empty<int>().GetEnumerator();
            public void Dispose() { }
        }
        public sealed class Pile : IEnumerable
        {
            public void Add(int number) { }
            public int this[int index] { get => index; set { } }
            public IEnumerator GetEnumerator() => Array.Empty<int>().GetEnumerator();
        }
        public struct Dot { public int X; }
        [InterpolatedStringHandler] public ref struct Words(int literalLength, int formattedCount)
        {
            public void AppendLiteral(string text) { }
        }
        """;

    private const string Layout = """
        using System;
        using System.Collections.Generic;
        using Lampblack.Jobs;
        namespace Lampblack.Layout;
        public static class Middle
        {
            public static Sheet Get() => new(1, "");
            public static List<Sheet> All() => [];
            public static void Give(out Sheet sheet) => sheet = Get();
            public static int Each(Func<Sheet, int> judge) => judge(Get());
            public static int Choose(Pick pick) => pick(1);
            public static int Of(Pile pile) => 1;
            public static int Draw(Dot dot) => 1;
            public static int Many(Dot[] dots) => 1;
            public static int Say(Words words) => 1;
            public static Sheet Current { get; set; } = Get();
            public static Sheet? Perhaps() => null;
            public static Sheet Pass(Sheet sheet) => sheet;
        }
        """;

    private const string Geometry = "namespace Lampblack.Geometry;\npublic static class Clean { public static object Use() => Lampblack.Layout.Middle.Get(); }\n";

    public static ImmutableArray<SourceFile> Clean { get; } =
    [
        new("src/Lampblack/Geometry/Clean.cs", Geometry),
        new("src/Lampblack/Jobs/Jobs.cs", Jobs),
        new("src/Lampblack/Layout/Middle.cs", Layout),
    ];

    /// <summary>A source of the folder Geometry, with all that it might need opened.</summary>
    public static SourceFile InGeometry(string code) => new(
        Path,
        "using System;\nusing System.Collections.Generic;\nusing System.Linq;\nusing System.Threading.Tasks;\nusing Lampblack.Jobs;\nusing Lampblack.Layout;\n"
        + "namespace Lampblack.Geometry;\n" + code);

    public static ImmutableArray<string> Check(params IEnumerable<SourceFile> planted) => Check(Table, planted);

    public static ImmutableArray<string> Check(string table, params IEnumerable<SourceFile> planted) =>
        DependencyRules.Check(Clean.Concat(planted), DependencyTable.Read(table), LiveCode.References);

    public static int LineOfMark(SourceFile source) =>
        source.Text.Split('\n').Index().Single(line => line.Item.Contains(Mark, System.StringComparison.Ordinal)).Index + 1;
}
