using System.Text;
using Lampblack.Formats;
using Xunit;

namespace Lampblack.Tests.Formats;

public sealed class CsvFileTests
{
    // RFC 4180: lines end with CR LF, a field with a comma, a quote or a line end stands in quotes, a quote in it twice.
    [Theory]
    [InlineData("a", "a")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a\"b", "\"a\"\"b\"")]
    [InlineData("a\nb", "\"a\nb\"")]
    [InlineData("", "")]
    [InlineData("=1+1", " =1+1")]
    [InlineData("@sum", " @sum")]
    [InlineData("-x", " -x")]
    [InlineData("-0.25", "-0.25")]
    [InlineData("+0.25", "+0.25")]
    public void Fields_are_written_so_that_a_table_program_reads_them_back(string field, string written) =>
        Assert.Equal($"head,x\r\n{written},1\r\n", Encoding.UTF8.GetString(CsvFile.Write(["head", "x"], [[field, "1"]]).AsSpan()));
}
