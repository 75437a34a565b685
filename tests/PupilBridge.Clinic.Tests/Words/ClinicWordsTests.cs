using PupilBridge.Clinic.Words;

namespace PupilBridge.Clinic.Tests.Words;

public class ClinicWordsTests
{
    [Fact]
    public void Every_value_has_a_word_that_reads_back()
    {
        Covers(ClinicWords.Eyes);
        Covers(ClinicWords.Lights);
        Covers(ClinicWords.Fixations);
        Covers(ClinicWords.Conditions);
        Covers(ClinicWords.Steps);
        Covers(ClinicWords.Shapes);
        Covers(ClinicWords.Blocks);
        Covers(ClinicWords.Modes);
    }

    [Fact]
    public void A_word_that_is_none_is_answered_with_the_ones_there_are()
    {
        var problem = Assert.Throws<EntryProblemException>(() => ClinicWords.Lights.Read("twilight"));

        Assert.Equal("'twilight' is no room light; give one of: bright, dim.", problem.Message);
    }

    private static void Covers<T>(WordTable<T> table)
        where T : struct, Enum
    {
        Assert.Equal(Enum.GetValues<T>().Length, table.All.Count);
        foreach (var value in Enum.GetValues<T>())
        {
            Assert.Equal(value, table.Read(table[value].ToUpperInvariant()));
        }
    }
}
