using System.Text;
using PupilBridge.CommandLine;
using PupilBridge.Tables;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Tables;

/// <summary>Tables as spreadsheets save them, and what is no table.</summary>
public sealed class PlainTableReaderTests
{
    [Theory]
    [InlineData("a,b", "1.5,-2e-3")]
    [InlineData("a;b", "1.5;-2e-3")]
    [InlineData("a\tb", "1.5\t-2e-3")]
    [InlineData("\"a\",\"b\"", "\"1.5\", -2e-3 ")]
    [InlineData("a,b", "1.5,−0.002")]
    [InlineData("a,b", "1.5,-0.002,")]
    [InlineData("a,b", "1.5,-0.002\n,\n\n")]
    public void What_spreadsheets_save_is_read(string first, string second)
    {
        using var file = new TableFile(first, "", second);
        var table = PlainTableReader.Read(file.Path);
        Assert.Equal(["a", "b"], table.Headings);
        Assert.Equal([1.5], table.Numbers(table.PlaceOf("a")));
        Assert.Equal([-0.002], table.Numbers(table.PlaceOf("B")));
        Assert.Equal(3, table.Rows[0].Line);
    }

    [Fact]
    public void Other_line_ends_and_encodings_are_read()
    {
        using var crlf = new TableFile("a,b\r", "1,2\r");
        Assert.Equal([2.0], PlainTableReader.Read(crlf.Path).Numbers(1));
        byte[] marked = [.. Encoding.UTF8.GetPreamble(), .. "a,b\n1,2"u8];
        using var utf8 = new TableFile(marked);
        Assert.Equal(0, PlainTableReader.Read(utf8.Path).PlaceOf("a"));
        byte[] wide = [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("a\tb\n1\t2\n")];
        using var utf16 = new TableFile(wide);
        Assert.Equal([2.0], PlainTableReader.Read(utf16.Path).Numbers(1));
    }

    public static TheoryData<string[], string> NoTables =>
        new()
        {
            { [], "holds nothing" },
            { ["", "  ", ""], "holds nothing" },
            { ["a,b"], "no row" },
            { ["3.1,4.2", "3.3,4.4"], "begins with numbers" },
            { ["3,1;4,2", "3,3;4,4"], "begins with numbers" },
            { ["a,b", "3,02,-0,01"], "decimal commas" },
            { ["a,b", "\"3"], "quotation marks" },
            { ["PK\u0003\u0004 and so on"], "is no text" },
            { ["a,b", "1,\0"], "is no text" },
        };

    [Theory]
    [MemberData(nameof(NoTables))]
    public void What_is_no_table_is_refused_with_the_file_and_the_reason(string[] lines, string says)
    {
        using var file = new TableFile(lines);
        var failure = Assert.Throws<CommandFailure>(() => PlainTableReader.Read(file.Path));
        Assert.Equal(ExitCode.Refused, failure.Code);
        Assert.Contains(file.Path, failure.Message, StringComparison.Ordinal);
        Assert.Contains(says, failure.Message + failure.Next, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("3,02", "decimal comma")]
    [InlineData("1.234,5", "decimal comma")]
    [InlineData("3.02 mm", "is no number")]
    [InlineData("NaN", "is no number")]
    [InlineData("1e999", "is no number")]
    [InlineData("", "unequal length")]
    public void A_cell_that_is_no_number_is_named_with_line_and_column(string cell, string says)
    {
        using var file = new TableFile("a;b", "1;2", $"3;{cell}");
        var table = PlainTableReader.Read(file.Path);
        var failure = Assert.Throws<CommandFailure>(() => table.Numbers(1));
        Assert.Equal(ExitCode.Refused, failure.Code);
        Assert.Contains("line 3, column 'b'", failure.Message, StringComparison.Ordinal);
        Assert.Contains(says, failure.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_file_and_a_folder_are_told_apart()
    {
        using var folder = new TemporaryFolder();
        var missing = Assert.Throws<CommandFailure>(() => PlainTableReader.Read(folder.At("none.csv")));
        Assert.Equal(ExitCode.NotFound, missing.Code);
        var noFile = Assert.Throws<CommandFailure>(() => PlainTableReader.Read(folder.Path));
        Assert.Contains("is a folder", noFile.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_that_is_missing_or_named_twice_is_refused()
    {
        using var file = new TableFile("a,b,b", "1,2,3");
        var table = PlainTableReader.Read(file.Path);
        var missing = Assert.Throws<CommandFailure>(() => table.PlaceOf("c"));
        Assert.Equal(ExitCode.NotFound, missing.Code);
        Assert.Contains("'a', 'b', 'b'", missing.Next, StringComparison.Ordinal);
        Assert.Contains(
            "2 columns",
            Assert.Throws<CommandFailure>(() => table.PlaceOf("b")).Message,
            StringComparison.Ordinal
        );
    }
}
