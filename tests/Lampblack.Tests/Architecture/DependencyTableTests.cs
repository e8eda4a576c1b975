using System;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class DependencyTableTests
{
    private const string Head = "text\n\n| folder | holds | may use | libraries | why |\n|---|---|---|---|---|\n";

    [Fact]
    public void A_row_is_read_with_its_line_its_folders_and_its_libraries()
    {
        var table = DependencyTable.Read(Head + "| Jobs | doors | `Findings`, Geometry | System.IO.Compression | streams |\n| Findings | places | - | - | |\n\ntext\n| Not | a | row | of | it |\n");

        Assert.Equal(["Jobs", "Findings"], table.Rows.Select(row => row.Folder));
        Assert.Equal(["Findings", "Geometry"], table.Rows[0].MayUse);
        Assert.Equal(["System.IO.Compression"], table.Rows[0].Libraries);
        Assert.Equal(5, table.Rows[0].Line);
        Assert.Empty(table.Rows[1].MayUse);
        Assert.Empty(table.Rows[1].Libraries);
    }

    [Theory]
    [InlineData("no table at all")]
    [InlineData("| folder | holds | may use | why |\n|---|---|---|---|\n| Jobs | doors | - | |")]
    [InlineData(Head + Head)]
    [InlineData(Head + "| Jobs | doors | - | - |\n")]
    [InlineData(Head + "| | doors | - | - | |\n")]
    public void A_page_without_exactly_one_whole_table_is_refused(string markdown) =>
        Assert.Throws<FormatException>(() => DependencyTable.Read(markdown));

    [Fact]
    public void Line_ends_of_any_kind_give_the_same_table()
    {
        var text = Head + "| Jobs | doors | Findings | - | |\n";
        Assert.Equal(
            DependencyTable.Read(text).Rows[0].ToString(),
            DependencyTable.Read(text.Replace("\n", "\r\n", StringComparison.Ordinal)).Rows[0].ToString());
    }
}
