using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Tests.Profiles;

public class GradeLegendTests
{
    // The default profile as version 1 of the entry wrote it, before there was a legend.
    private const string Version1 =
        "02010041040764656661756C740206020406080A0C06D00FF02ED00F08E807F02E08E8070AE0D403E807C0BB01C80100E0D403C09A0CC0B802904E"
        + "809F49A01FA006050303";

    [Theory]
    [InlineData("0", "no constriction seen")]
    [InlineData("4", "large and brisk")]
    [InlineData("2.5", "between \"clearly visible, of moderate size or speed\" and \"good size, at a good pace\"")]
    [InlineData("?", null)]
    public void A_grade_means_what_the_legend_says(string grade, string? text)
    {
        Assert.True(Grade.TryParse(grade, out var given));
        Assert.Equal(text, GradeLegend.Default.Of(given));
    }

    [Fact]
    public void A_legend_has_a_text_for_each_of_the_five_grades() =>
        Assert.Throws<ArgumentException>(() => GradeLegend.Default with { Grades = ["none", "some"] });

    [Fact]
    public void A_profile_from_before_there_was_a_legend_is_read_with_the_programs_own()
    {
        var read = (ProfileInForce)EntryCodec.Decode(Convert.FromHexString(Version1));
        Assert.Equal(Profile.Default, read.Profile);
        Assert.Equal(GradeLegend.Default, read.Profile.Legend);
    }

    [Fact]
    public void A_profile_is_written_with_its_legend()
    {
        var legend = new GradeLegend { Version = 2, Grades = ["a", "b", "c", "d", "e"] };
        var entry = new ProfileInForce { At = new(2), Profile = Profile.Default with { Legend = legend } };
        var bytes = EntryCodec.Encode(entry);
        Assert.Equal(2, bytes[1]);
        Assert.Equal(legend, ((ProfileInForce)EntryCodec.Decode(bytes)).Profile.Legend);
        Assert.Equal([4, 5, .. "\u0001a\u0001b\u0001c\u0001d\u0001e"u8], bytes[^12..]);
    }

    [Fact]
    public void An_exam_keeps_the_legend_in_force_when_it_opened()
    {
        var journal = Script.Journal("meet A; open Q-1");
        var legend = GradeLegend.Default with { Version = 2 };
        var later = new ProfileInForce { At = new(0), Profile = Profile.Default with { Legend = legend } };
        var exam = Folded.Of([.. journal, new(new(journal.Count + 1), later)]).Exam;
        Assert.Equal(1, exam.Profile.Legend.Version);
    }
}
