using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Microsoft.CodeAnalysis;

namespace Lampblack.Tests.Architecture;

/// <summary>Rules for what the core shows to others.</summary>
internal static class PublicShape
{
    /// <summary>How a number's name ends, and what that ending says. A parameter may be the unit alone, in lower case.</summary>
    public static readonly ImmutableSortedDictionary<string, string> Units = new Dictionary<string, string>
    {
        ["Mm"] = "millimetres",
        ["Mm2"] = "square millimetres",
        ["Mm3"] = "cubic millimetres",
        ["Um"] = "micrometres",
        ["Nm"] = "nanometres",
        ["Pt"] = "PDF points, a 72nd of an inch",
        ["Px"] = "pixels",
        ["Em"] = "the size of the font",
        ["Dots"] = "dots of a raster",
        ["MmPerDot"] = "millimetres for each dot",
        ["MmPerPx"] = "millimetres for each pixel",
        ["MmPerUnit"] = "millimetres for each unit of a font",
        ["PxPerMm"] = "pixels for each millimetre",
        ["PtPerMm"] = "PDF points for each millimetre",
        ["DotsPerMm"] = "dots for each millimetre",
        ["Dpi"] = "dots for each inch",
        ["Degrees"] = "degrees, counter-clockwise",
        ["ArcMinutes"] = "a sixtieth of a degree, as the eye sees it",
        ["Radians"] = "radians, counter-clockwise",
        ["Factor"] = "a multiplier",
        ["Share"] = "a part of a whole, from 0 to 1",
        ["Percent"] = "a part of a whole, from 0 to 100",
        ["Coverage"] = "toner, as a share of one full layer",
        ["Density"] = "optical density, the decimal logarithm of one over transmission",
        ["Transmittance"] = "light let through, as a share",
        ["Reflectance"] = "light thrown back, as a share",
        ["M2PerKg"] = "area for each mass, as of scattering and absorption in paper",
        ["Kelvin"] = "colour temperature or temperature in kelvin",
        ["Celsius"] = "temperature in degrees Celsius",
        ["Lux"] = "illuminance",
        ["Lightness"] = "CIE lightness L*, from 0 to 100",
        ["Lumens"] = "luminous flux",
        ["Candela"] = "luminous intensity",
        ["CandelaPerM2"] = "luminance",
        ["Volts"] = "volts",
        ["Amperes"] = "amperes",
        ["Milliamperes"] = "thousandths of an ampere",
        ["Watts"] = "watts",
        ["Ohms"] = "ohms",
        ["Seconds"] = "seconds",
        ["Minutes"] = "minutes",
        ["Milliseconds"] = "milliseconds",
        ["Hertz"] = "cycles a second",
        ["Newtons"] = "newtons",
        ["Megapascals"] = "newtons for each square millimetre",
        ["Grams"] = "grams",
        ["GramsPerM2"] = "weight of paper",
    }.ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>Public types that anyone could derive from by accident.</summary>
    public static IEnumerable<string> OpenTypes(Compilation compilation) =>
        from type in PublicTypes(compilation)
        where type is { TypeKind: TypeKind.Class, IsSealed: false, IsStatic: false, IsAbstract: false }
        select $"{At(type)}: {Name(type)} must be sealed, static or abstract";

    /// <summary>Public numbers whose name does not tell the unit, unless an exception with a reason is listed; and exceptions that nobody needs any more.</summary>
    /// <param name="compilation">The core, bound.</param>
    /// <param name="exceptions">Reasons, by <c>Type.Member</c> or <c>Type.Method(parameter)</c>.</param>
    public static IEnumerable<string> NumbersWithoutUnit(Compilation compilation, IReadOnlyDictionary<string, string> exceptions)
    {
        var unnamed = PublicTypes(compilation).SelectMany(Numbers).Where(number => !TellsUnit(number.Name)).Select(number => (Key: KeyOf(number), At: At(number))).ToList();
        return
        [
            .. unnamed.Where(number => !exceptions.ContainsKey(number.Key)).Select(number => $"{number.At}: {number.Key} does not tell its unit").Distinct(),
            .. exceptions.Keys.Except(unnamed.Select(number => number.Key)).Order(StringComparer.Ordinal).Select(key => $"{key} is listed as an exception, but there is no such number without a unit"),
            .. exceptions.Where(exception => exception.Value.Length < 10).Select(exception => $"{exception.Key} is listed as an exception without a reason"),
        ];
    }

    public static bool TellsUnit(string name) => Units.Keys.Any(unit =>
        name.EndsWith(unit, StringComparison.Ordinal) || name == char.ToLowerInvariant(unit[0]) + unit[1..]);

    private static IEnumerable<INamedTypeSymbol> PublicTypes(Compilation compilation) =>
        Types(compilation.Assembly.GlobalNamespace).Where(IsSeen).OrderBy(Name, StringComparer.Ordinal);

    private static IEnumerable<INamedTypeSymbol> Types(INamespaceOrTypeSymbol owner) => owner.GetMembers()
        .OfType<INamespaceOrTypeSymbol>()
        .SelectMany(member => member is INamedTypeSymbol type ? Types(type).Prepend(type) : Types(member));

    private static IEnumerable<ISymbol> Numbers(INamedTypeSymbol type)
    {
        foreach (var member in type.GetMembers().Where(member => IsSeen(member) && (!member.IsImplicitlyDeclared || member is IMethodSymbol { MethodKind: MethodKind.DelegateInvoke })))
        {
            switch (member)
            {
                case IFieldSymbol field when IsNumber(field.Type):
                    yield return field;
                    break;
                case IPropertySymbol { IsIndexer: false } property when IsNumber(property.Type):
                    yield return property;
                    break;
            }

            var parameters = member switch
            {
                IMethodSymbol { MethodKind: MethodKind.PropertySet or MethodKind.PropertyGet or MethodKind.EventAdd or MethodKind.EventRemove } => [],
                IMethodSymbol method => method.Parameters,
                IPropertySymbol property => property.Parameters,
                _ => [],
            };
            foreach (var parameter in parameters.Where(parameter => IsNumber(parameter.Type)))
            {
                // A record's parameter is its property too, and told there.
                if (member is not IMethodSymbol { MethodKind: MethodKind.Constructor } || !type.GetMembers(parameter.Name).OfType<IPropertySymbol>().Any())
                {
                    yield return parameter;
                }
            }
        }
    }

    private static bool IsNumber(ITypeSymbol type) => type switch
    {
        INamedTypeSymbol { OriginalDefinition.SpecialType: SpecialType.System_Nullable_T } nullable => IsNumber(nullable.TypeArguments[0]),
        _ => type.SpecialType is SpecialType.System_Double or SpecialType.System_Single or SpecialType.System_Decimal,
    };

    private static bool IsSeen(ISymbol symbol) =>
        symbol.DeclaredAccessibility is Accessibility.Public or Accessibility.Protected or Accessibility.ProtectedOrInternal
        && (symbol.ContainingType is null || IsSeen(symbol.ContainingType));

    private static string Name(INamedTypeSymbol type) => type.ContainingType is { } outer ? $"{Name(outer)}.{type.Name}" : type.Name;

    private static string KeyOf(ISymbol number)
    {
        var owner = number is IParameterSymbol ? number.ContainingSymbol : number;
        var type = owner as INamedTypeSymbol ?? owner.ContainingType;
        return number is not IParameterSymbol ? $"{Name(type)}.{number.Name}"
            : owner is IMethodSymbol { MethodKind: MethodKind.Constructor } or INamedTypeSymbol ? $"{Name(type)}({number.Name})"
            : $"{Name(type)}.{owner.Name}({number.Name})";
    }

    private static string At(ISymbol symbol)
    {
        var place = symbol.Locations[0].GetLineSpan();
        return FormattableString.Invariant($"{place.Path}({place.StartLinePosition.Line + 1})");
    }
}
