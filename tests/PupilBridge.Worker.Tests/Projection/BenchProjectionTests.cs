using PupilBridge.Constructed.Scripts;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Tests.Projection;

/// <summary>Bench runs in the exam log: kept whole, listed by instrument, and never among the exams of patients.</summary>
public sealed class BenchProjectionTests
{
    private const string Day =
        "meet A; @Z meet B; discs; lamps 100,102 50,51; mode measure; bright; e: open Q-1001; +1000; pair R 3200; pair L 3150;"
        + "ready; bench calibration all 2; measure 30; reading 2 aside dust; measure 30; finish; issue 1 offset=0.03 until=99999999;"
        + "+1000; open Q-1002; +1000; pair R 3200; ready exam=e; @Z bench quick R d5 L d5; @Z measure 100; @Z finish;"
        + "bench live R bright L bright R dim L dim; pair R 3300; pair L 3290; finish; adopt 0.08 12;"
        + "bench calibration R d2 L d2; pair R 2030; edge L N 5000";

    [Fact]
    public void Runs_are_stored_whole_and_read_back_as_they_were()
    {
        using var folder = new ScriptedFolder();
        var folded = Script.Run(Day);
        folder.Write(folded.Journal);
        using var opened = folder.Open();
        Assert.Equal(4, folded.Runs.Count);
        foreach (var run in folded.Runs.Values)
        {
            Assert.Equal(run, BenchDocuments.Find(opened.Log, run.Id));
            Assert.Equal(run, opened.Exams.Find(run.Id));
        }

        Assert.Null(BenchDocuments.Find(opened.Log, new ExamId(99_999)));
        Assert.Null(BenchDocuments.Find(opened.Log, default));
        // And exams are found where runs are not.
        Assert.All(folded.Exams.Keys, exam => Assert.Null(BenchDocuments.Find(opened.Log, exam)));
        Assert.All(folded.Exams.Values, exam => Assert.Equal(exam, opened.Exams.Find(exam.Id)));
    }

    [Fact]
    public void The_runs_of_an_instrument_are_listed_the_latest_first_and_a_page_at_a_time()
    {
        using var folder = new ScriptedFolder();
        var runs = string.Concat(
            Enumerable
                .Range(0, 7)
                .Select(_ => "bench timing; +1000; @Q7.1 bench timing; @Z bench timing; +1000; finish;")
        );
        var folded = Script.Run("meet A; @Z meet A; @Q7.1 meet A;" + runs);
        folder.Write(folded.Journal);
        using var opened = folder.Open();
        var all = BenchDocuments.List(opened.Log, new("Q7"), null, 100);
        Assert.Equal(
            folded.Runs.Values.Where(run => run.Serial == new SerialNumber("Q7")).Reverse().Select(BenchRunSummary.Of),
            all
        );
        var paged = new List<BenchRunSummary>();
        for (ExamId? before = null; BenchDocuments.List(opened.Log, new("Q7"), before, 3) is { Count: > 0 } page; )
        {
            paged.AddRange(page);
            before = page[^1].Run;
        }

        Assert.Equal(all, paged);
        Assert.Empty(BenchDocuments.List(opened.Log, new("Q"), null, 10));
    }

    [Fact]
    public void A_line_of_a_list_says_what_a_drift_chart_needs()
    {
        using var folder = new ScriptedFolder();
        folder.Write(Script.Journal(Day));
        using var opened = folder.Open();
        var ofQ7 = BenchDocuments.List(opened.Log, new("Q7"), null, 10);
        Assert.Equal(
            [BenchRunKind.Calibration, BenchRunKind.LiveRepeatability, BenchRunKind.Calibration],
            ofQ7.Select(line => line.Kind)
        );
        Assert.Equal([true, false, false], ofQ7.Select(line => line.IsOpen));
        Assert.Equal([null, null, 1L], ofQ7.Select(line => line.Certificate));
        // Every reading is 25 or 35 µm too large, so that the offset lies between, and no slope is left.
        Assert.InRange(ofQ7[2].OffsetMillimetres.Right!.Value, 0.025, 0.035);
        Assert.InRange(ofQ7[2].Slope.Left!.Value, -0.003, 0.003);
        // 5.100 ± 0.005 mm at a disc of 5 mm.
        Assert.Equal(
            0.105,
            Assert.Single(BenchDocuments.List(opened.Log, new("Z"), null, 10)).OffsetMillimetres.Right!.Value,
            9
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    public void A_restart_anywhere_goes_on_with_the_run_and_all_that_the_bench_keeps(int pieces)
    {
        using var folder = new ScriptedFolder();
        var journal = Script.Journal(Day);
        folder.Write(journal, pieces);
        using (var opened = folder.Open())
        {
            var expected = Folded.Of(journal).Book;
            var book = opened.Exams.Book;
            Assert.Equal(expected.OpenSittingOf(new("Q7")), book.OpenSittingOf(new("Q7")));
            Assert.Single(book.OpenSittingOf(new("Q7"))!.Captures);
            Assert.Equal(expected.Lanes.Values, book.Lanes.Values);
            Assert.Equal(1, Assert.Single(book.Lane(new("Q7"))!.Calibrations).Number);
            Assert.NotNull(book.Lane(new("Q7"))!.LampBalance);
            Assert.NotNull(book.Lane(new("Q7"))!.Repeatability);
            Assert.Equal(expected.DiscSets.Values, book.DiscSets.Values);
            Assert.Equal((2, 2), (expected.NextCertificate, book.NextCertificate));
        }

        // The half-made pair of before the restart is completed after it, and the run goes on to its certificate.
        var whole = Script.Journal(Day + "; +500; edge L T 7040; finish; issue 2");
        folder.Write([.. whole.Skip(journal.Count)]);
        using var after = folder.Open();
        var last = BenchDocuments.List(after.Log, new("Q7"), null, 1)[0];
        Assert.Equal((2L, false), (last.Certificate, last.IsOpen));
        Assert.Equal([2030, 2040], BenchDocuments.Find(after.Log, last.Run)!.Captures.Select(c => c.Raw.Value));
        Assert.Equal(3, after.Exams.Book.NextCertificate);
    }

    [Fact]
    public void The_exam_log_that_grew_equals_the_one_made_anew()
    {
        using var folder = new ScriptedFolder();
        folder.Write(Script.Journal(Day), pieces: 5);
        var check = ProjectionCheck.Offline(folder.Parts, default);
        Assert.True(check.IsSame, check.ToString());
        OfflineFolder.Rebuild(folder.Parts, "test", default);
        var again = ProjectionCheck.Offline(folder.Parts, default);
        Assert.True(again.IsSame, again.ToString());
        Assert.Equal(check.InExamLog, again.InExamLog);
    }

    [Fact]
    public void No_list_of_exams_knows_a_run()
    {
        using var folder = new ScriptedFolder();
        var folded = Script.Run(Day);
        folder.Write(folded.Journal);
        using var opened = folder.Open();
        var exams = folded.Exams.Keys.Select(ExamDocuments.IdOf).ToHashSet();
        Assert.Equal(2, exams.Count);
        Assert.Equal(exams, [.. opened.Log.ListExams(new ExamQuery()).Items.Select(exam => exam.Id)]);
        Assert.Equal(exams, [.. opened.Log.ListForReview().Items.Select(exam => exam.Id)]);
        Assert.All(folded.Runs.Keys, run => Assert.Null(opened.Log.FindExam(ExamDocuments.IdOf(run))));
        Assert.Empty(opened.Log.ListOutbox(OutboxList.Open).Items);
    }
}
