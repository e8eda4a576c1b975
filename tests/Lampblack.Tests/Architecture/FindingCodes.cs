using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Lampblack.Tests.Architecture;

/// <summary>A finding's code where it is written: in a source, or as a section's heading in the manual.</summary>
internal sealed record WrittenCode(string Code, string Path, int Line)
{
    public string At => FormattableString.Invariant($"{Path}({Line})");
}

/// <summary>Lists the codes of all findings and holds them to the manual.</summary>
internal static partial class FindingCodes
{
    private const string Finding = "Lampblack.Findings.Finding";

    private static readonly ImmutableArray<string> Makers = ["Stop", "Warn", "Note"];

    /// <summary>The codes that sources write, and the places where a finding is made in a way that no list could follow.</summary>
    public static (ImmutableArray<WrittenCode> Codes, ImmutableArray<string> Offences) Written(Compilation compilation)
    {
        var codes = ImmutableArray.CreateBuilder<WrittenCode>();
        var offences = ImmutableArray.CreateBuilder<string>();
        foreach (var tree in compilation.SyntaxTrees)
        {
            var model = compilation.GetSemanticModel(tree);
            foreach (var node in tree.GetRoot().DescendantNodes())
            {
                if (IsMaker(model, node))
                {
                    var callee = node.Parent is MemberAccessExpressionSyntax access && access.Name == node ? access : node;
                    var literals = callee.Parent is InvocationExpressionSyntax call && call.Expression == callee ? Literals(CodeOf(call)) : null;
                    if (literals is null)
                    {
                        offences.Add($"{At(node)}: the code must be a literal in the call, so that it can be listed");
                    }

                    codes.AddRange((literals ?? []).Select(literal => new WrittenCode(literal.Token.ValueText, tree.FilePath, LineOf(literal))));
                }
                else if (node is BaseObjectCreationExpressionSyntax && TypeName(model.GetTypeInfo(node).Type) == Finding && !IsInsideFinding(model, node))
                {
                    offences.Add($"{At(node)}: findings are made by Finding.Stop, Finding.Warn or Finding.Note");
                }
            }
        }

        offences.AddRange(codes.Where(code => !KebabCase().IsMatch(code.Code)).Select(code => $"{code.At}: '{code.Code}' is not in kebab-case"));
        return (codes.ToImmutable(), offences.ToImmutable());
    }

    /// <summary>The headings of the manual's sections, and sections that say nothing.</summary>
    public static (ImmutableArray<WrittenCode> Codes, ImmutableArray<string> Offences) Sections(IEnumerable<SourceFile> pages)
    {
        var codes = ImmutableArray.CreateBuilder<WrittenCode>();
        var offences = ImmutableArray.CreateBuilder<string>();
        foreach (var page in pages)
        {
            var lines = page.Text.ReplaceLineEndings("\n").Split('\n');
            for (var index = 0; index < lines.Length; index++)
            {
                if (!lines[index].StartsWith("### ", StringComparison.Ordinal))
                {
                    continue;
                }

                var section = new WrittenCode(lines[index][4..].Trim().Trim('`'), page.Path, index + 1);
                codes.Add(section);
                if (lines.Skip(index + 1).TakeWhile(line => !line.StartsWith('#')).All(string.IsNullOrWhiteSpace))
                {
                    offences.Add($"{section.At}: the section {section.Code} is empty");
                }
            }
        }

        offences.AddRange(codes.GroupBy(section => section.Code).SelectMany(same => same.Skip(1).Select(section => $"{section.At}: {section.Code} has a section already, at {same.First().At}")));
        return (codes.ToImmutable(), offences.ToImmutable());
    }

    /// <summary>Codes without a section, and sections without a code.</summary>
    public static IEnumerable<string> Unmatched(IReadOnlyCollection<WrittenCode> codes, IReadOnlyCollection<WrittenCode> sections) =>
    [
        .. codes.ExceptBy(sections.Select(section => section.Code), code => code.Code).Select(code => $"{code.At}: {code.Code} has no section in docs/findings.md"),
        .. sections.ExceptBy(codes.Select(code => code.Code), section => section.Code).Select(section => $"{section.At}: no source makes the finding {section.Code}"),
    ];

    /// <summary>Codes that none of the given texts names as a whole word.</summary>
    public static IEnumerable<string> Unmentioned(IEnumerable<WrittenCode> codes, IEnumerable<SourceFile> texts)
    {
        var words = texts.SelectMany(text => KebabWord().Matches(text.Text).Select(match => match.Value)).ToHashSet();
        return codes.DistinctBy(code => code.Code).Where(code => !words.Contains(code.Code)).Select(code => $"{code.At}: no test names the finding {code.Code}");
    }

    private static bool IsMaker(SemanticModel model, SyntaxNode node)
    {
        if (node is not IdentifierNameSyntax name || !Makers.Contains(name.Identifier.ValueText))
        {
            return false;
        }

        var info = model.GetSymbolInfo(name);
        return (info.Symbol ?? info.CandidateSymbols.FirstOrDefault()) is IMethodSymbol method && TypeName(method.ContainingType) == Finding;
    }

    private static ExpressionSyntax? CodeOf(InvocationExpressionSyntax call)
    {
        var arguments = call.ArgumentList.Arguments;
        return (arguments.FirstOrDefault(argument => argument.NameColon?.Name.Identifier.ValueText == "code") ?? arguments.FirstOrDefault(argument => argument.NameColon is null))?.Expression;
    }

    /// <summary>The literals that an expression chooses from; null where anything else could come out.</summary>
    private static ImmutableArray<LiteralExpressionSyntax>? Literals(ExpressionSyntax? expression) => expression switch
    {
        LiteralExpressionSyntax literal when literal.IsKind(SyntaxKind.StringLiteralExpression) => [literal],
        ParenthesizedExpressionSyntax inner => Literals(inner.Expression),
        ConditionalExpressionSyntax choice => All([choice.WhenTrue, choice.WhenFalse]),
        SwitchExpressionSyntax choice => All(choice.Arms.Select(arm => arm.Expression).Where(arm => arm is not ThrowExpressionSyntax)),
        _ => null,
    };

    private static ImmutableArray<LiteralExpressionSyntax>? All(IEnumerable<ExpressionSyntax> choices)
    {
        var all = choices.Select(Literals).ToList();
        return all.Contains(null) ? null : [.. all.SelectMany(literals => literals!.Value)];
    }

    private static bool IsInsideFinding(SemanticModel model, SyntaxNode node) =>
        node.FirstAncestorOrSelf<TypeDeclarationSyntax>() is { } type && TypeName(model.GetDeclaredSymbol(type)) == Finding;

    private static string? TypeName(ITypeSymbol? type) => type?.WithNullableAnnotation(NullableAnnotation.None).ToDisplayString();

    private static string At(SyntaxNode node) => FormattableString.Invariant($"{node.SyntaxTree.FilePath}({LineOf(node)})");

    private static int LineOf(SyntaxNode node) => node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;

    [GeneratedRegex("^[a-z][a-z0-9]*(-[a-z0-9]+)*$")]
    private static partial Regex KebabCase();

    [GeneratedRegex("[A-Za-z0-9]+(-[A-Za-z0-9]+)*")]
    private static partial Regex KebabWord();
}
