using System.Runtime.CompilerServices;
using PupilBridge.Exchange.Research;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Tests.Tables;

public class DataDictionaryTests
{
    [Fact]
    public void The_page_is_what_the_code_says() =>
        Assert.Equal(DataDictionaryPage.Write(), File.ReadAllText(Page()).ReplaceLineEndings("\n"));

    [Fact]
    public void Every_column_says_its_range_and_meaning_and_bears_its_unit_in_its_name()
    {
        Check(ClinicTables.Exams);
        Check(ClinicTables.Readings);
        var names = new Pseudonyms(new byte[Pseudonyms.SecretBytes], "");
        Check(ResearchTables.Exams(names, static _ => { }));
        Check(ResearchTables.Readings(names, static _ => { }));
    }

    private static void Check<T>(Table<T> table)
    {
        foreach (var column in table.Columns)
        {
            Assert.Matches("^[a-z][a-z0-9_]*$", column.Name);
            Assert.NotEmpty(column.Range);
            Assert.EndsWith(".", column.Meaning, StringComparison.Ordinal);
            var suffix = column.Unit switch
            {
                "mm" => "_mm",
                "µm" => "_um",
                "ms" => "_ms",
                "mlx" => "millilux",
                "years" => "_years",
                "UTC" => "_at",
                "days" => "_days",
                "s" => "_s",
                "" => "",
                _ => throw new Xunit.Sdk.XunitException($"{column.Name}: '{column.Unit}' is no unit of the tables."),
            };
            Assert.EndsWith(suffix, column.Name, StringComparison.Ordinal);
        }
    }

    private static string Page([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../../docs/data-dictionary.md"));
}
