using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Lampblack.Tests.Architecture;

/// <summary>
/// Finds what a source depends on by binding its syntax. The compiled code would not do: constants, enum values,
/// nameof and doc comments leave no trace in it.
/// </summary>
/// <remarks>
/// Counted is what is named, and what is held or called without a name: operators, conversions, indexers, loops, deconstruction,
/// variables and lambda parameters whose type is left to the compiler. A value that is only passed on, from one call straight into
/// another, is not counted: who passes a closed letter does not depend on its words.
/// </remarks>
internal static class SymbolUses
{
    public static ImmutableArray<SymbolUse> Of(Compilation compilation) =>
        [.. compilation.SyntaxTrees.AsParallel().AsOrdered().SelectMany(tree => Of(compilation.GetSemanticModel(tree)))];

    private static ImmutableArray<SymbolUse> Of(SemanticModel model)
    {
        var path = model.SyntaxTree.FilePath;
        var uses = new HashSet<SymbolUse>();
        foreach (var node in model.SyntaxTree.GetRoot().DescendantNodes(descendIntoTrivia: true))
        {
            foreach (var (type, member) in At(model, node).OfType<ISymbol>().SelectMany(Owners))
            {
                var name = FullName(type);
                var line = node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;
                uses.Add(new(path, line, type.ContainingAssembly?.Name ?? "", Space(type), name, member is null ? name : $"{name}.{member}"));
            }
        }

        return [.. uses];
    }

    private static IEnumerable<ISymbol?> At(SemanticModel model, SyntaxNode node) => node switch
    {
        ExpressionSyntax expression => AtExpression(model, expression),
        CrefSyntax cref => Symbols(model.GetSymbolInfo(cref)),
        CommonForEachStatementSyntax loop => AtLoop(model, loop),
        SingleVariableDesignationSyntax designation => [(model.GetDeclaredSymbol(designation) as ILocalSymbol)?.Type],
        ParameterSyntax { Type: null } parameter => [(model.GetDeclaredSymbol(parameter) as IParameterSymbol)?.Type],
        PositionalPatternClauseSyntax pattern => Symbols(model.GetSymbolInfo(pattern)),
        QueryClauseSyntax clause => [model.GetQueryClauseInfo(clause).CastInfo.Symbol, model.GetQueryClauseInfo(clause).OperationInfo.Symbol],
        SelectOrGroupClauseSyntax clause => Symbols(model.GetSymbolInfo(clause)),
        OrderingSyntax ordering => Symbols(model.GetSymbolInfo(ordering)),
        _ => [],
    };

    private static IEnumerable<ISymbol?> AtExpression(SemanticModel model, ExpressionSyntax expression)
    {
        IEnumerable<ISymbol?> found = expression switch
        {
            SimpleNameSyntax or BinaryExpressionSyntax or PrefixUnaryExpressionSyntax or PostfixUnaryExpressionSyntax or CastExpressionSyntax
                or ElementAccessExpressionSyntax or ElementBindingExpressionSyntax or ImplicitElementAccessSyntax
                or ImplicitObjectCreationExpressionSyntax => Symbols(model.GetSymbolInfo(expression)),
            AssignmentExpressionSyntax assignment =>
                [.. Symbols(model.GetSymbolInfo(assignment)), .. Deconstructions(model.GetDeconstructionInfo(assignment))],
            AwaitExpressionSyntax awaiting => [model.GetAwaitExpressionInfo(awaiting).GetAwaiterMethod],
            LiteralExpressionSyntax literal when literal.IsKind(SyntaxKind.DefaultLiteralExpression) => Types(model.GetTypeInfo(expression)),
            CollectionExpressionSyntax or ImplicitArrayCreationExpressionSyntax or ImplicitStackAllocArrayCreationExpressionSyntax
                or InterpolatedStringExpressionSyntax => Types(model.GetTypeInfo(expression)),
            AnonymousFunctionExpressionSyntax => [model.GetTypeInfo(expression).ConvertedType?.OriginalDefinition],
            _ => [],
        };
        var added = expression.Parent.IsKind(SyntaxKind.CollectionInitializerExpression)
            ? model.GetCollectionInitializerSymbolInfo(expression).Symbol
            : null;
        return [.. found, added, model.GetConversion(expression).MethodSymbol];
    }

    private static IEnumerable<ISymbol?> AtLoop(SemanticModel model, CommonForEachStatementSyntax loop)
    {
        var info = model.GetForEachStatementInfo(loop);
        IEnumerable<ISymbol?> parts = loop is ForEachVariableStatementSyntax variables
            ? Deconstructions(model.GetDeconstructionInfo(variables))
            : [];
        return [info.GetEnumeratorMethod, info.CurrentProperty, info.ElementConversion.MethodSymbol, .. parts];
    }

    private static IEnumerable<ISymbol?> Deconstructions(DeconstructionInfo info) =>
        [info.Method, info.Conversion?.MethodSymbol, .. info.Nested.SelectMany(Deconstructions)];

    private static IEnumerable<ISymbol?> Types(TypeInfo info) => [info.Type, info.ConvertedType];

    /// <summary>Where a name fits several things (a group of overloads, a doc comment), each of them is meant.</summary>
    private static IEnumerable<ISymbol?> Symbols(SymbolInfo info) => info.Symbol is { } symbol ? [symbol] : info.CandidateSymbols;

    private static IEnumerable<(INamedTypeSymbol Type, string? Member)> Owners(ISymbol symbol) => symbol switch
    {
        ITypeSymbol type => NamedTypes(type).Select(named => (named, (string?)null)),
        IMethodSymbol { MethodKind: MethodKind.Constructor or MethodKind.StaticConstructor } method => [(method.ContainingType, null)],
        IMethodSymbol { MethodKind: MethodKind.LocalFunction or MethodKind.AnonymousFunction } => [],
        IMethodSymbol { ContainingType: { } type } method => [(type, method.Name)],
        IPropertySymbol or IFieldSymbol or IEventSymbol when symbol.ContainingType is { IsAnonymousType: false } type => [(type, symbol.Name)],
        _ => [],
    };

    private static IEnumerable<INamedTypeSymbol> NamedTypes(ITypeSymbol type) => type switch
    {
        INamedTypeSymbol { IsAnonymousType: true } => [],
        INamedTypeSymbol named => [named, .. named.TypeArguments.SelectMany(NamedTypes)],
        IArrayTypeSymbol array => NamedTypes(array.ElementType),
        IPointerTypeSymbol pointer => NamedTypes(pointer.PointedAtType),
        IFunctionPointerTypeSymbol pointer =>
            [.. NamedTypes(pointer.Signature.ReturnType), .. pointer.Signature.Parameters.SelectMany(parameter => NamedTypes(parameter.Type))],
        _ => [],
    };

    private static string Space(INamedTypeSymbol type) =>
        type.ContainingNamespace is { IsGlobalNamespace: false } space ? space.ToDisplayString() : "";

    /// <summary>Extension blocks are types without a name: their class stands for them.</summary>
    private static string FullName(INamedTypeSymbol type) => type.ContainingType is { } outer
        ? type.Name.Length == 0 || type.IsExtension ? FullName(outer) : $"{FullName(outer)}.{type.Name}"
        : type.Name;
}
