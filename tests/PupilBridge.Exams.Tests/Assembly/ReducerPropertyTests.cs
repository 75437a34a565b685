using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Tests.Scripts;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>What must hold for any journal whatever, in any order of any events and entries.</summary>
public class ReducerPropertyTests
{
    [Fact]
    public void No_order_of_events_and_entries_throws_or_loses_one() =>
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                var taken = folded.Changes.Select(c => c.Sequence.Value).ToHashSet();
                foreach (var entry in folded.Journal)
                    Assert.Contains(entry.Sequence.Value, taken);
                foreach (var reported in folded.Journal.Where(e => e.Entry is InstrumentReported))
                    Assert.True(IsAccountedFor(folded, reported), $"event at {reported.Sequence} is lost");
            },
            iter: 3_000
        );

    [Fact]
    public void Everything_that_is_computed_from_an_exam_can_be_computed_for_any_exam() =>
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                EarlierVisit[] visits = [.. folded.Exams.Values.Select(e => EarlierVisit.Of(e)).OfType<EarlierVisit>()];
                foreach (var lane in folded.Book.Lanes.Values)
                {
                    var open = folded.Book.OpenExamOf(lane.Serial);
                    Assert.InRange(LaneReminders.Of(lane, open, new(9_999_999)).Length, 0, 2);
                    foreach (var exam in folded.Exams.Values.Where(e => e.Id != open?.Id))
                        Assert.Null(DarkTimes.Of(lane, exam).Since.Right);
                }

                foreach (var exam in folded.Exams.Values)
                {
                    Assert.Equal(exam.Status == ExamStatus.Open && !exam.TakesEvents, exam.IsLeftOpen);
                    Assert.All(BeforeDrops.Of(exam, visits), reason => Assert.NotEqual(0, (int)reason.Kind));
                    Assert.NotEmpty(ChartText.Block(exam));
                    Assert.EndsWith(".", ChartText.OneLine(exam), StringComparison.Ordinal);
                    Assert.NotNull(Asked.Of(exam));
                }
            },
            iter: 1_000
        );

    [Fact]
    public void The_same_entries_read_back_from_their_bytes_fold_to_the_same_exams() =>
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                var again = folded.Journal.Select(e => new SequencedEntry(
                    e.Sequence,
                    EntryCodec.Decode(EntryCodec.Encode(e.Entry))
                ));
                var read = Folded.Of([.. again]);
                Assert.Equal(folded.Exams.Values, read.Exams.Values);
                Assert.Equal(folded.Runs.Values, read.Runs.Values);
                Assert.Equal(folded.Book.Lanes.Values, read.Book.Lanes.Values);
            },
            iter: 1_000
        );

    [Fact]
    public void No_capture_spans_two_exams_and_none_is_in_two() =>
        WildScripts.Any.Sample(
            script =>
            {
                var all = WildScripts
                    .Run(script)
                    .Exams.Values.SelectMany(e => e.Captures.Select(c => (e, c)))
                    .ToArray();
                Assert.Equal(all.Length, all.Select(x => (x.c.CompletedBy, x.c.Eye)).Distinct().Count());
                foreach (var (exam, capture) in all)
                    Assert.Contains(exam.Entries, range => range.Contains(capture.Temporal.When.Sequence));
            },
            iter: 2_000
        );

    [Fact]
    public void The_record_of_any_exam_reads_back_as_it_was_written_and_counts_only_what_holds() =>
        WildScripts.Any.Sample(
            script =>
            {
                foreach (var exam in WildScripts.Run(script).Exams.Values)
                {
                    var record = SignedRecords.Of(exam, "0");
                    var text = SignedRecordText.Write(record);
                    Assert.Equal(record, SignedRecordText.Read(text));
                    Assert.Equal(text, SignedRecordText.Write(SignedRecordText.Read(text)));
                    Assert.Equal(ChartText.OneLine(exam), record.Chart.Line);
                    Assert.All(record.Sizes.Where(s => s.Counts).GroupBy(s => (s.Eye, s.Light)), g => Assert.Single(g));
                    Assert.Equal(
                        exam.Judgements.Count(j => j.WithdrawnBy is not null),
                        record.Judgements.Count(j => j.WhyNot == "taken-back")
                    );
                }
            },
            iter: 1_000
        );

    // Edges and lamps going on are about a patient: they are in an exam, listed as orphans, or ignored with a reason. All
    // else may also be a condition of the instrument.
    private static bool IsAccountedFor(Folded folded, SequencedEntry entry)
    {
        if (
            folded
                .Exams.Values.Concat(folded.Runs.Values)
                .Any(e => e.Entries.Any(range => range.Contains(entry.Sequence)))
        )
            return true;
        var changes = folded.Changes.Where(c => c.Sequence == entry.Sequence).ToArray();
        if (changes.Any(c => c is EventOrphaned or EntryIgnored))
            return true;
        var line = ((InstrumentReported)entry.Entry).RawLine;
        var isAboutAPatient =
            line.Contains(",EDGE,", StringComparison.Ordinal)
            || (line.Contains(",LAMP,", StringComparison.Ordinal) && line.Contains(",ON,", StringComparison.Ordinal));
        return !isAboutAPatient && changes.Any(c => c is LaneChanged);
    }
}
