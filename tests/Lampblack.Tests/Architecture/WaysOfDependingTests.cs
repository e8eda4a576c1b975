using Xunit;

namespace Lampblack.Tests.Architecture;

/// <summary>Each way in which one type can depend on another is planted alone and must be seen at its place.</summary>
public sealed class WaysOfDependingTests
{
    [Fact]
    public void The_ground_for_the_planted_offences_is_clean() => Offences.AssertNone(Planted.Check());

    [Theory]
    [InlineData("field", "class X { Sheet? _it; } // HERE", "Sheet")]
    [InlineData("parameter", "class X { void M(Sheet sheet) { } } // HERE", "Sheet")]
    [InlineData("call in a body", "class X { void M()\n{\nBuild.Run(); // HERE\n} }", "Build.Run")]
    [InlineData("const", "class X { const int D = Build.Dpi; } // HERE", "Build.Dpi")]
    [InlineData("enum literal", "class X { int M() => (int)Side.Back; } // HERE", "Side.Back")]
    [InlineData("nameof", "class X { string M() => nameof(Build.Run); } // HERE", "Build.Run")]
    [InlineData("typeof", "class X { Type M() => typeof(IStep); } // HERE", "IStep")]
    [InlineData("lambda", "class X { Func<int> M() => () =>\nBuild.Run(); // HERE\n}", "Build.Run")]
    [InlineData("new", "class X { object M() => new Base(); } // HERE", "Base")]
    [InlineData("generic argument", "class X { object M() => new List<IStep>(); } // HERE", "IStep")]
    [InlineData("attribute", "[Mark] // HERE\nclass X;", "MarkAttribute")]
    [InlineData("interface", "class X : IStep; // HERE", "IStep")]
    [InlineData("async", "class X { async Task<int> M() { await Task.Yield();\nreturn Build.Run(); // HERE\n} }", "Build.Run")]
    [InlineData("iterator", "class X { IEnumerable<int> M() {\nyield return Build.Run(); // HERE\n} }", "Build.Run")]
    [InlineData("pattern", "class X { bool M(object it) => it is IStep; } // HERE", "IStep")]
    [InlineData("default parameter", "class X { void M(int dpi = Build.Dpi) { } } // HERE", "Build.Dpi")]
    [InlineData("local function", "class X { int M() { return Inner();\nint Inner() => Build.Run(); // HERE\n} }", "Build.Run")]
    [InlineData("cref", "/// <summary>As <see cref=\"Build.Run\"/>. HERE</summary>\nclass X;", "Build.Run")]
    [InlineData("switch on a constant", "class X { int M(int it) { switch (it) {\ncase Build.Dpi: return 1; // HERE\ndefault: return 0; } } }", "Build.Dpi")]
    public void Each_of_the_nineteen_ways_of_depending_is_seen(string way, string code, string seen) => Check(way, code, seen);

    [Theory]
    [InlineData("base class", "class X : Base; // HERE", "Base")]
    [InlineData("constraint", "class X<T> where T : IStep; // HERE", "IStep")]
    [InlineData("array", "class X { object? M() => (Side[]?)null; } // HERE", "Side")]
    [InlineData("tuple", "class X { (int A, Side B) _it; } // HERE", "Side")]
    [InlineData("delegate", "class X { Pick? _it; } // HERE", "Pick")]
    [InlineData("extension method call", "class X { int M() => 3.Twice(); } // HERE", "Build.Twice")]
    [InlineData("member of an extension block", "class X { int M() => 3.Half; } // HERE", "Build.Half")]
    [InlineData("property setter", "class X { void M() => Build.Calls++; } // HERE", "Build.Calls")]
    [InlineData("enum switch arm", "class X { int M(object it) => it switch {\nSide.Back => 1, // HERE\n_ => 0 }; }", "Side.Back")]
    [InlineData("cref to an overload", "/// <summary>HERE <see cref=\"Build.Twice(int)\"/></summary>\nclass X;", "Build.Twice")]
    [InlineData("cref to an indexer", "/// <summary>HERE <see cref=\"Sheet.this[int]\"/></summary>\nclass X;", "Sheet.this[]")]
    [InlineData("cref to an operator", "/// <summary>HERE <see cref=\"Sheet.operator +(Sheet, Sheet)\"/></summary>\nclass X;", "Sheet.op_Addition")]
    [InlineData("exception cref", "class X {\n/// <exception cref=\"MarkAttribute\">HERE</exception>\nvoid M() { } }", "MarkAttribute")]
    public void Further_named_ways_are_seen(string way, string code, string seen) => Check(way, code, seen);

    [Theory]
    [InlineData("var", "class X { void M() { var it = Middle.Get(); } } // HERE", "Sheet")]
    [InlineData("var of a list", "class X { void M() { var it = Middle.All(); } } // HERE", "Sheet")]
    [InlineData("out var", "class X { void M() => Middle.Give(out var it); } // HERE", "Sheet")]
    [InlineData("var pattern", "class X { bool M() => Middle.Get() is var it; } // HERE", "Sheet")]
    [InlineData("lambda parameter", "class X { int M() => Middle.Each(it => 1); } // HERE", "Sheet")]
    [InlineData("lambda as a delegate", "class X { int M() => Middle.Choose(it => 1); } // HERE", "Pick")]
    [InlineData("member of a result", "class X { int M() => Middle.Get().Number; } // HERE", "Sheet.Number")]
    [InlineData("property pattern", "class X { bool M() => Middle.Get() is { Number: 1 }; } // HERE", "Sheet.Number")]
    [InlineData("positional pattern", "class X { bool M() => Middle.Get() is (1, _); } // HERE", "Sheet.Deconstruct")]
    [InlineData("deconstruction", "class X { void M() { int a; string b;\n(a, b) = Middle.Get(); // HERE\n} }", "Sheet.Deconstruct")]
    [InlineData("indexer", "class X { int M() => Middle.Get()[1]; } // HERE", "Sheet.this[]")]
    [InlineData("operator", "class X { object M() => Middle.Get() + Middle.Get(); } // HERE", "Sheet.op_Addition")]
    [InlineData("sign operator", "class X { object M() => -Middle.Get(); } // HERE", "Sheet.op_UnaryNegation")]
    [InlineData("implicit conversion", "class X { int M() => Middle.Get(); } // HERE", "Sheet.op_Implicit")]
    [InlineData("explicit conversion", "class X { string M() => (string)Middle.Get(); } // HERE", "Sheet.op_Explicit")]
    [InlineData("await", "class X { async Task<int> M() => await Middle.Get(); } // HERE", "Sheet.GetAwaiter")]
    [InlineData("query", "class X { object M() => from it in Middle.Get() select it; } // HERE", "Sheet.Select")]
    [InlineData("loop", "class X { void M() { foreach (object it in Middle.Get()) { } } } // HERE", "Sheet.GetEnumerator")]
    [InlineData("loop that deconstructs", "class X { void M() {\nforeach (var (a, b) in Middle.All()) { } // HERE\n} }", "Sheet.Deconstruct")]
    [InlineData("query with a condition", "class X { object M() => from it in Middle.Get() where it > 1 select it; } // HERE", "Sheet.Where")]
    [InlineData("query with an order", "class X { object M() => from it in Middle.Get() orderby it select it; } // HERE", "Sheet.OrderBy")]
    [InlineData("compound assignment", "class X { void M() => Middle.Current += Middle.Get(); } // HERE", "Sheet.op_Addition")]
    [InlineData("step operator", "class X { void M() => Middle.Current++; } // HERE", "Sheet.op_Increment")]
    [InlineData("indexer behind a question mark", "class X { int? M() => Middle.Perhaps()?[1]; } // HERE", "Sheet.this[]")]
    [InlineData("implicit array", "class X { object M() => new[] { Middle.Get() }; } // HERE", "Sheet")]
    [InlineData("interpolated string", "class X { int M() => Middle.Say($\"a\"); } // HERE", "Words")]
    [InlineData("indexer in an initializer", "class X { int M() => Middle.Of(new() { [1] = 2 }); } // HERE", "Pile.this[]")]
    [InlineData("loop variable", "class X { void M() { foreach (var it in Middle.All()) { } } } // HERE", "Sheet")]
    [InlineData("new without a name", "class X { int M() => Middle.Draw(new()); } // HERE", "Dot")]
    [InlineData("default without a name", "class X { int M() => Middle.Draw(default); } // HERE", "Dot")]
    [InlineData("collection expression", "class X { int M() => Middle.Many([]); } // HERE", "Dot")]
    public void Ways_of_depending_without_a_name_are_seen(string way, string code, string seen) => Check(way, code, seen);

    [Fact]
    public void A_collection_initializer_is_seen_where_it_creates_and_where_it_adds() => Assert.Equal(
        [$"{Planted.Path}(8): Geometry must not use Jobs (Pile)", $"{Planted.Path}(9): Geometry must not use Jobs (Pile.Add)"],
        Planted.Check(Planted.InGeometry("class X { int M() => Middle.Of(new() {\n1 }); }")));

    [Fact]
    public void A_value_that_is_only_passed_on_is_not_counted() =>
        Offences.AssertNone(Planted.Check(Planted.InGeometry("class X { object M() => Middle.Pass(Middle.Get()); }")));

    [Theory]
    [InlineData("full name", "class X { int M() => Lampblack.Jobs.Build.Run(); } // HERE")]
    [InlineData("global name", "class X { int M() => global::Lampblack.Jobs.Build.Run(); } // HERE")]
    [InlineData("relative name", "class X { int M() => Jobs.Build.Run(); } // HERE")]
    [InlineData("null-forgiving and parentheses", "class X { object M() => ((Func<int>)(Build.Run))!; } // HERE")]
    public void A_name_is_seen_however_it_is_spelled(string way, string code) => Check(way, code, "Build.Run");

    private static void Check(string way, string code, string seen)
    {
        var source = Planted.InGeometry(code);
        var expected = $"{Planted.Path}({Planted.LineOfMark(source)}): Geometry must not use Jobs ({seen})";
        var found = Planted.Check(source);
        Assert.True(found is [var one] && one == expected, $"{way}: expected only{System.Environment.NewLine}{expected}{System.Environment.NewLine}found{System.Environment.NewLine}{string.Join(System.Environment.NewLine, found)}");
    }
}
