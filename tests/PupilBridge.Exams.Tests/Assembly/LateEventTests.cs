using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Notation;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>A backlog that arrives after the next patient has sat down must never join the next patient's exam.</summary>
public class LateEventTests
{
    private const string Begin = "meet A; bright; open Q-1001; +1000; mode measure; +500;";

    [Fact]
    public void A_backlog_joins_the_exam_within_which_it_happened()
    {
        var folded = Script.Run(Begin + "pair R 3200; hold; pair L 3100; +5000; open Q-1002; +3000; release");
        Assert.Equal([3200, 3100], folded[1].Captures.Select(c => c.Raw.Value));
        Assert.Empty(folded[2].Captures);
        Assert.Single(folded[1].Incidents, i => i.Kind == IncidentKind.ArrivedLate);
    }

    [Fact]
    public void What_happened_on_both_sides_of_the_border_is_parted_there()
    {
        var folded = Script.Run(Begin + "hold; pair R 3200; +5000; open Q-1002; +3000; pair R 4000; release");
        Assert.Equal(3200, Assert.Single(folded[1].Captures).Raw.Value);
        Assert.Equal(4000, Assert.Single(folded[2].Captures).Raw.Value);
    }

    [Fact]
    public void A_pair_never_spans_the_border()
    {
        var folded = Script.Run(Begin + "hold; edge R N 5000; +5000; open Q-1002; +3000; edge R T 8000; release");
        Assert.Empty(folded[1].Captures);
        Assert.Empty(folded[2].Captures);
    }

    [Fact]
    public void Events_whose_time_may_lie_on_either_side_join_neither_and_are_listed()
    {
        var folded = Script.Run(
            Begin + "pair R 3200; unsure 4000; hold; pair L 3100; +1000; open Q-1002; +1000; release"
        );
        Assert.DoesNotContain(folded.Exams.Values, e => e.Captures.Any(c => c.Raw.Value == 3100));
        Assert.Equal(2, folded.Changes.OfType<EventOrphaned>().Count(o => o.Reason == OrphanReason.TimeUncertain));
        Assert.Equal(2, folded.Exams.Values.Sum(e => e.Incidents.Count(i => i.Kind == IncidentKind.EventUnplaced)));
    }

    [Fact]
    public void An_event_that_may_lie_before_or_after_making_ready_joins_no_exam()
    {
        var folded = Script.Run(
            Begin + "pair R 3200; unsure 2000; hold; edge L N 5000; +1000; ready; mode idle; +9000; release"
        );
        Assert.Single(folded.Exam.Captures);
        Assert.Empty(folded.Exam.RefusedPairs);
        Assert.Single(folded.Changes.OfType<EventOrphaned>(), o => o.Reason == OrphanReason.TimeUncertain);
    }

    [Fact]
    public void An_event_that_may_lie_before_or_after_opening_joins_no_exam_and_opens_none()
    {
        var folded = Script.Run(
            "meet A; bright; mode measure; unsure 2000; hold; edge R N 5000; +1000; open Q-1; +9; release"
        );
        Assert.Empty(folded.Exam.Captures);
        Assert.Null(folded.Exam.Opening.EventSequence);
        Assert.Single(folded.Exam.Incidents, i => i.Kind == IncidentKind.EventUnplaced);
        Assert.Contains(
            "GAP: 1 event at its border in no exam",
            ChartText.OneLine(folded.Exam),
            StringComparison.Ordinal
        );
        Assert.Single(folded.Changes.OfType<EventOrphaned>(), o => o.Reason == OrphanReason.TimeUncertain);
    }

    [Fact]
    public void An_uncertain_time_is_no_obstacle_where_the_order_of_events_tells()
    {
        var folded = Script.Run("meet A; bright; unsure 60000; mode measure; pair R 3200; pair L 3100");
        Assert.Equal(2, folded.Exam.Captures.Count);
    }

    [Fact]
    public void A_backlog_after_an_exam_was_made_ready_still_joins_it()
    {
        var folded = Script.Run(Begin + "mode hold direct; hold; directs; release; ready; +10; direct R 3");
        Assert.Single(folded.Exam.Judgements);
        var late = Script.Run(Begin + "pair R 3200; hold; pair L 3100; +500; ready; +9000; release");
        Assert.Equal(2, late.Exam.Captures.Count);
        Assert.Equal(ExamStatus.ReadyForReview, late.Exam.Status);
    }

    [Fact]
    public void A_backlog_that_holds_a_border_of_its_own_is_parted_there_too()
    {
        // The line is lost in mid exam; the first patient goes, a second one is measured without anybody telling the
        // program, then the first exam is made ready.
        var folded = Script.Run(
            Begin
                + "pair R 3200; hold; mode hold short; swings 1000 4 R; +20000; mode measure; +500; pair R 4000; +9000; ready;"
                + "+1000; release"
        );
        Assert.Equal(3200, Assert.Single(folded[1].Captures).Raw.Value);
        Assert.Equal("Q-1001", folded[1].Patient!.Value.Value);
        Assert.Equal(4000, Assert.Single(folded[2].Captures).Raw.Value);
        Assert.Null(folded[2].Patient);
    }

    [Fact]
    public void A_sitting_that_nobody_opened_before_the_next_exam_becomes_one_of_its_own()
    {
        var folded = Script.Run(
            Begin
                + "pair R 3200; off; +60000; boot; hold; mode measure; pair R 4000; +30000; open Q-1003; +1000; release"
        );
        Assert.Equal([3200, 4000], folded.Exams.Values.SelectMany(e => e.Captures).Select(c => c.Raw.Value).Order());
        var unattached = folded.Exams.Values.Single(e => e.Patient is null);
        Assert.Equal(ClosingReason.AnotherOpened, unattached.Closing!.Reason);
        Assert.Empty(folded.Exams.Values.Single(e => e.Patient?.Value == "Q-1003").Captures);
    }

    [Fact]
    public void A_late_judgement_reaches_an_exam_that_has_left_the_book()
    {
        var folded = Script.Run(Begin + "pair R 3200; pair L 3200; ready; mode idle; boot; off; shape R round");
        Assert.Empty(folded.Book.OpenExams);
        Assert.Single(folded[1].Judgements);
    }
}
