using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Tests.Projection;

public class ExamDocumentsTests
{
    [Fact]
    public void Every_status_has_a_word_of_its_own() =>
        Assert.Equal(
            ["open", "ready-for-review", "signed", "amended", "set-aside"],
            Enum.GetValues<ExamStatus>().Select(ExamDocuments.WordOf)
        );

    [Fact]
    public void A_signed_exam_under_amendment_comes_back_from_the_log_as_it_was()
    {
        var exam = SignedAndBeingAmended();
        Assert.True(exam.IsBeingAmended);
        var stored = ExamDocuments.Of(exam);
        Assert.Equal("signed", stored.Status);
        var read = ExamDocuments.Read(stored);
        Assert.Equal(exam, read);
        Assert.Equal("the record → Größe", Assert.Single(read.SignedVersions).Record);
        Assert.Equal(GradeLegend.Default, read.Profile.Legend);
    }

    private static Exam SignedAndBeingAmended()
    {
        var id = ExamId.OpenedBy(new(1));
        PersonEntry[] entries =
        [
            new ExamOpened
            {
                Id = new(1),
                Who = new("MK"),
                At = new(1_000),
                ProgramVersion = "0",
                Serial = new("T-1"),
                Patient = new("Q-1001"),
            },
            new ExamMadeReady
            {
                Id = new(2),
                Who = new("MK"),
                At = new(2_000),
                ProgramVersion = "0",
                Exam = id,
            },
            new ExamSigned
            {
                Id = new(3),
                Who = new("DR"),
                At = new(3_000),
                ProgramVersion = "0",
                Exam = id,
                Version = 1,
                Record = "the record → Größe",
                Reason = null,
            },
            new AmendmentBegun
            {
                Id = new(4),
                Who = new("DR"),
                At = new(4_000),
                ProgramVersion = "0",
                Exam = id,
                Reason = "wrong patient",
            },
        ];
        var book = ExamBook.Empty;
        Exam? exam = null;
        for (var i = 0; i < entries.Length; i++)
        {
            (book, var changes) = ExamReducer.Apply(book, new(new(i + 1), entries[i]), _ => exam);
            exam = changes.OfType<ExamChanged>().Single().Exam;
        }

        return exam!;
    }
}
