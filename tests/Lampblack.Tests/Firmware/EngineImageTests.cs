using System;
using System.IO;
using System.Linq;
using Lampblack.Firmware;
using Lampblack.Formats;
using Lampblack.Parts;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Peers.Avr;
using Xunit;

namespace Lampblack.Tests.Firmware;

public sealed class EngineImageTests
{
    public static TheoryData<ControllerChip> Chips => new(Enum.GetValues<ControllerChip>());

    [Theory]
    [MemberData(nameof(Chips))]
    public void Every_chip_has_an_engine_that_says_what_it_holds(ControllerChip chip)
    {
        var image = EngineImage.BuiltIn(chip);
        Assert.Equal((chip, EngineVersions.Engine, EngineVersions.Table, EngineVersions.Link), (image.Chip, image.EngineVersion, image.TableVersion, image.LinkVersion));
        Assert.Equal(EngineLimits.Of(chip), image.Limits);
        Assert.All(image.File.Segments, segment => Assert.True(segment.End <= EngineLimits.TableAddress));
        Assert.All(image.File.Segments, segment => Assert.Equal(-1, segment.Bytes.AsSpan().IndexOf("!!!"u8)));
    }

    /// <summary>The compiler that made them is Debian's avr-gcc 5.4.0; another one makes other bytes, and is told of.</summary>
    [Theory]
    [MemberData(nameof(Chips))]
    public void The_engines_are_built_from_their_sources_byte_for_byte(ControllerChip chip)
    {
        var version = OutsideProgram.RunWell("avr-gcc", ["-dumpversion"]).Output.Trim();
        Assert.SkipUnless(version == "5.4.0", $"the engines were built by avr-gcc 5.4.0, here is {version}");
        Assert.Equal(Repository.Read($"firmware/built/{chip}.hex"), PanelBench.Variant(chip.ToString()));
    }

    [Fact]
    public void A_table_lies_where_the_engine_looks_for_it()
    {
        var table = PanelTable.Of(BenchPlans.WholePorts()).Value;
        var image = PanelImage.Join(EngineImage.BuiltIn(ControllerChip.ATmega2560), table);
        Assert.Empty(image.Findings);
        Assert.Equal(table.Bytes, Enumerable.Range(0x6000, table.Bytes.Length).Select(address => image.Value.File[address]!.Value));
        Assert.Equal(EngineImage.BuiltIn(ControllerChip.ATmega2560).File.Bytes(), image.Value.File.Bytes().Where(pair => pair.Key < 0x6000));
        Assert.Equal(image.Value.File.Write(), HexFile.Read(image.Value.File.Write()).File.Write());
    }

    [Theory]
    [InlineData(5, 5, "the table is of form 1, the engine reads form 5")]
    [InlineData(4, 0, "the table needs engine 1, this engine is 0")]
    [InlineData(6, 3, "the program speaks link 1, the engine speaks link 3")]
    public void What_does_not_fit_together_is_told_by_a_sentence(int identityByte, byte value, string message)
    {
        var hex = EngineImage.BuiltIn(ControllerChip.ATmega2560).File.With(new(0x5FE0 + identityByte, [value])).Write();
        var image = PanelImage.Join(EngineImage.Read(hex).Value!, PanelTable.Of(BenchPlans.WholePorts()).Value);
        var finding = Assert.Single(image.Findings);
        Assert.Equal("engine-version", finding.Code);
        Assert.Equal(message, finding.Message);
        Assert.Empty(image.Value.File.Segments);
    }

    [Fact]
    public void A_table_for_another_chip_is_not_joined()
    {
        var image = PanelImage.Join(EngineImage.BuiltIn(ControllerChip.ATmega328P), PanelTable.Of(BenchPlans.WholePorts()).Value);
        Assert.Equal("the table is for ATmega2560, the engine for ATmega328P", Assert.Single(image.Findings).Message);
        Assert.Equal("there is no table to join to the engine", Assert.Single(PanelImage.Join(EngineImage.BuiltIn(ControllerChip.ATmega328P), new([], 0)).Findings).Message);
    }

    [Theory]
    [InlineData(":10000001FF\n", "the engine's file is damaged in line 1: the record says 16 bytes and has 0")]
    [InlineData(":00000001FF\n", "the file is no engine: it does not say what it is")]
    public void A_file_that_is_no_engine_is_refused(string hex, string message)
    {
        var image = EngineImage.Read(hex);
        Assert.Null(image.Value);
        Assert.Equal("engine-image", Assert.Single(image.Findings).Code);
        Assert.Equal(message, image.Findings[0].Message);
    }

    [Fact]
    public void An_engine_that_reaches_into_the_table_is_refused()
    {
        var hex = EngineImage.BuiltIn(ControllerChip.ATmega2560).File.With(new(0x6000, [0])).Write();
        Assert.Equal("the engine reaches into the place of the desk's table", Assert.Single(EngineImage.Read(hex).Findings).Message);
    }

    /// <summary>Figures in docs/engine.md are those of the images.</summary>
    [Theory]
    [MemberData(nameof(Chips))]
    public void The_manual_tells_how_large_the_engine_is(ControllerChip chip)
    {
        var bytes = EngineImage.BuiltIn(chip).File.Segments[0].Bytes.Length;
        Assert.Contains(FormattableString.Invariant($"| {chip} | {bytes} |"), File.ReadAllText(Path.Combine(Repository.Root, "docs/engine.md")), StringComparison.Ordinal);
    }
}
