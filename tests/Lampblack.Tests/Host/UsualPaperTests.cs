using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using System.Text;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class UsualPaperTests
{
    [Theory]
    [InlineData("LANG=en_US.UTF-8", null, "Letter")]
    [InlineData("LANG=de_DE.UTF-8", null, "A4")]
    [InlineData("LANG=fr_CA", null, "Letter")]
    [InlineData("LANG=es-MX", null, "Letter")]
    [InlineData("LANG=C.UTF-8", null, "A4")]
    [InlineData("LANG=POSIX", null, "A4")]
    [InlineData("LANG=de_DE@euro", null, "A4")]
    [InlineData("", null, "A4")]
    [InlineData("LANG=en_US.UTF-8 LC_PAPER=de_DE.UTF-8", null, "A4")]
    [InlineData("LANG=de_DE.UTF-8 LC_PAPER=en_US.UTF-8", null, "Letter")]
    [InlineData("LC_ALL=en_US.UTF-8 LC_PAPER=de_DE.UTF-8", null, "Letter")]
    [InlineData("LANG=de_DE.UTF-8", "US", "Letter")]
    [InlineData("LANG=en_US.UTF-8", "AT", "A4")]
    [InlineData("LC_PAPER=en_US.UTF-8", "AT", "Letter")]
    public void The_most_particular_setting_decides(string variables, string? system, string paper)
    {
        Dictionary<string, string> set = variables.Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => pair[1], StringComparer.Ordinal);
        Assert.Equal(paper, UsualPaper.For(name => set.GetValueOrDefault(name), system));
    }

    /// <summary>Every two-letter territory against the library ICU, which carries CLDR's table (ulocdata_getPaperSize).</summary>
    [Fact]
    public void Every_territory_has_the_paper_that_CLDR_gives_it()
    {
        string[] folders = ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/lib64", "/usr/lib"];
        string? library = folders.Where(Directory.Exists).SelectMany(folder => Directory.EnumerateFiles(folder, "libicui18n.so.*"))
            .FirstOrDefault(path => path.Split(".so.")[1].All(char.IsAsciiDigit));
        Assert.SkipWhen(library is null, "there is no ICU here to ask");
        string version = library!.Split(".so.")[1];
        IntPtr function = NativeLibrary.GetExport(NativeLibrary.Load(library), "ulocdata_getPaperSize_" + version);
        GetPaperSize getPaperSize = Marshal.GetDelegateForFunctionPointer<GetPaperSize>(function);
        for (char first = 'A'; first <= 'Z'; first++)
        {
            for (char second = 'A'; second <= 'Z'; second++)
            {
                string territory = $"{first}{second}";
                int status = 0;
                getPaperSize([.. Encoding.ASCII.GetBytes("und_" + territory), 0], out int heightMm, out int widthMm, ref status);
                string expected = (widthMm, heightMm) == (216, 279) ? "Letter" : "A4";
                Assert.Equal((territory, expected), (territory, UsualPaper.For(_ => null, territory)));
            }
        }
    }

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    private delegate void GetPaperSize(byte[] locale, out int heightMm, out int widthMm, ref int status);
}
