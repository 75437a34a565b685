using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Tests.Scripts;

namespace PupilBridge.Exams.Tests.Assembly;

public class ExamJsonTests
{
    [Theory]
    [InlineData("open; +9; mode measure")]
    [InlineData(
        "start 1; meet A; lux 300; open Q-1; +9; mode measure; pair R 3200; pair L 3100; edge R T 1; shape R round; s: status L drops;"
            + "mode hold direct; directs; direct R ?; consensual R 2; direct L 4; mode hold short; swings 1000 4 R; swing short alike;"
            + "say near; near R 3; near L 0.5; slow L; note hello; accept near; gap 2; conflict; lens in; undo s; move Q-2; r: ready; undo r; aside"
    )]
    public void An_exam_reads_back_as_it_was_written(string script)
    {
        var exam = Script.Run(script).Exam;
        Assert.Equal(exam, ExamJson.Deserialize(ExamJson.Serialize(exam)));
        Assert.Equal(ExamJson.Serialize(exam), ExamJson.Serialize(ExamJson.Deserialize(ExamJson.Serialize(exam))));
    }

    [Fact]
    public void An_exam_that_was_stored_takes_late_entries_as_the_one_in_memory()
    {
        const string script =
            "meet A; bright; open Q-1; +9; mode measure; pair R 3200; hold; pair L 3100; +99; ready; release; shape R round";
        var journal = Script.Journal(script);
        var book = ExamBook.Empty;
        Dictionary<long, byte[]> stored = [];
        foreach (var entry in journal)
        {
            (book, var changes) = ExamReducer.Apply(
                book,
                entry,
                id => stored.TryGetValue(id.Value, out var bytes) ? ExamJson.Deserialize(bytes) : null
            );
            foreach (var change in changes.OfType<ExamChanged>())
                stored[change.Exam.Id.Value] = ExamJson.Serialize(change.Exam);
        }

        Assert.Equal(Folded.Of(journal).Exam, ExamJson.Deserialize(Assert.Single(stored.Values)));
    }
}
