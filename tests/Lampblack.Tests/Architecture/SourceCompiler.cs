using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Lampblack.Tests.Architecture;

/// <summary>Parses and binds sources the way the build does, doc comments included.</summary>
internal static class SourceCompiler
{
    /// <summary>Members whose other half is written by a generator that only the build runs; nothing of ours can hide in there.</summary>
    private static readonly ImmutableArray<string> NeedsGenerator = ["CS8795", "CS9248"];

    private static readonly CSharpParseOptions Parsing = new(LanguageVersion.CSharp14, DocumentationMode.Diagnose);

    public static CSharpCompilation Compile(string assembly, IEnumerable<SourceFile> sources, IEnumerable<MetadataReference> references)
    {
        var trees = sources.Select(source => CSharpSyntaxTree.ParseText(source.Text, Parsing, source.Path)).ToList();
        var isProgram = trees.Any(tree => tree.GetCompilationUnitRoot().Members.OfType<GlobalStatementSyntax>().Any());
        return CSharpCompilation.Create(
            assembly,
            trees,
            references,
            new(isProgram ? OutputKind.ConsoleApplication : OutputKind.DynamicallyLinkedLibrary, allowUnsafe: true, nullableContextOptions: NullableContextOptions.Enable));
    }

    /// <summary>What keeps sources from being judged: a name that binds to nothing could be anything, and code behind a switch is not bound.</summary>
    public static IEnumerable<string> Blind(CSharpCompilation compilation)
    {
        foreach (var diagnostic in compilation.GetDiagnostics())
        {
            var brokenReference = diagnostic.Id is "CS1574" or "CS1580" or "CS1581" or "CS1584" or "CS1658";
            if ((diagnostic.Severity == DiagnosticSeverity.Error || brokenReference) && !NeedsGenerator.Contains(diagnostic.Id))
            {
                var place = diagnostic.Location.GetLineSpan();
                yield return FormattableString.Invariant(
                    $"{place.Path}({place.StartLinePosition.Line + 1}): can't be judged, as it does not compile here: {diagnostic.Id} {diagnostic.GetMessage(System.Globalization.CultureInfo.InvariantCulture)}");
            }
        }

        foreach (var tree in compilation.SyntaxTrees)
        {
            foreach (var node in tree.GetRoot().DescendantNodes(descendIntoTrivia: true).OfType<IfDirectiveTriviaSyntax>())
            {
                yield return FormattableString.Invariant(
                    $"{tree.FilePath}({node.GetLocation().GetLineSpan().StartLinePosition.Line + 1}): code under #if can't be judged");
            }
        }
    }
}
