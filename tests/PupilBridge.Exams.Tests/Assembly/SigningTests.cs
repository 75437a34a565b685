using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;

namespace PupilBridge.Exams.Tests.Assembly;

public class SigningTests
{
    private const string Ready =
        "meet A; bright; open Q-1001; +1000; mode measure; +500; pair R 3200; pair L 3150; r: shape R round; shape L round;"
        + "mode idle; +1000; m: ready; +1000;";

    private const string Sealed = "it was signed; begin an amendment first";

    [Fact]
    public void A_signed_exam_keeps_the_text_that_was_signed_with_who_and_when()
    {
        var exam = Script.Run(Ready + "s: sign 1 the record").Exam;
        Assert.Equal((ExamStatus.Signed, true, false), (exam.Status, exam.IsSealed, exam.IsBeingAmended));
        var version = Assert.Single(exam.SignedVersions);
        Assert.Equal((1, "the record", null), (version.Version, version.Record, version.Reason));
        Assert.Equal("AB", version.Who.Value);
        Assert.Equal(exam.Entries[^1].Last, version.Sequence);
        Assert.Equal(CourseKind.Signed, exam.Course[^1].Kind);
        Assert.Equal(AskedFor.Nothing, Asked.Of(exam).For);
    }

    [Theory]
    [InlineData("meet A; open Q-1;", "sign 1", "not ready for review")]
    [InlineData("meet A; open Q-1; x: ready; undo x;", "sign 1", "not ready for review")]
    [InlineData(Ready, "sign 2", "the next one is 1")]
    [InlineData(Ready + "sign 1;", "sign 1", "signed already, as version 1")]
    [InlineData(Ready + "sign 1;", "sign 2", "begin an amendment")]
    [InlineData(Ready + "sign 1; amend;", "sign 1", "the next one is 2")]
    [InlineData(Ready + "sign 1; amend;", "sign 3", "the next one is 2")]
    [InlineData(Ready + "aside;", "sign 1", "set aside")]
    [InlineData(Ready + "sign 1; amend; aside;", "sign 2", "set aside")]
    [InlineData(Ready, "amend", "not signed")]
    [InlineData(Ready + "sign 1; amend;", "amend", "AB is amending it already")]
    [InlineData(Ready + "sign 1; aside;", "amend", "set aside")]
    [InlineData(Ready + "sign 1; amend;", "ready", "sign the amended record instead")]
    public void What_cannot_be_signed_or_amended_now_says_why(string before, string entry, string why)
    {
        var (was, exam) = (Script.Run(before).Exam, Script.Run(before + entry).Exam);
        var incident = Assert.Single(exam.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
        Assert.Contains(why, incident.Detail, StringComparison.Ordinal);
        Assert.Equal(
            (was.Status, was.SignedVersions, was.Amendment),
            (exam.Status, exam.SignedVersions, exam.Amendment)
        );
    }

    [Theory]
    [InlineData("undo r")]
    [InlineData("undo m")]
    [InlineData("undo s")]
    [InlineData("attach Q-2")]
    [InlineData("move Q-2")]
    [InlineData("split r")]
    [InlineData("status R drops")]
    [InlineData("note later")]
    [InlineData("accept Near")]
    [InlineData("say dim")]
    [InlineData("say near")]
    [InlineData("ready")]
    public void A_persons_entry_on_a_signed_exam_is_refused(string entry)
    {
        var was = Script.Run(Ready + "s: sign 1;").Exam;
        var exam = Assert.Single(Script.Run(Ready + "s: sign 1;" + entry).Exams.Values);
        var incident = exam.Incidents[^1];
        Assert.Equal((IncidentKind.EntryNotApplied, Sealed), (incident.Kind, incident.Detail));
        var unchanged = exam with { Incidents = was.Incidents, Entries = was.Entries, EntryIds = was.EntryIds };
        Assert.Equal(was, unchanged);
    }

    [Fact]
    public void A_judgement_on_a_signed_exam_is_refused_at_the_gate()
    {
        var exam = Script.Run(Ready + "sign 1; shape R notround").Exam;
        Assert.Equal(JudgementRefusal.ExamSigned, Assert.Single(exam.RefusedJudgements).Reason);
        Assert.Contains("1 judgement refused: the exam was signed", ChartText.OneLine(exam), StringComparison.Ordinal);
    }

    [Fact]
    public void An_amendment_opens_the_working_copy_and_the_next_signature_closes_it()
    {
        const string amended =
            Ready + "sign 1 one; amend wrong shape; shape R notround; note seen again; status R drops; move Q-2;";
        var open = Script.Run(amended).Exam;
        Assert.Equal((ExamStatus.Signed, true, false), (open.Status, open.IsBeingAmended, open.IsSealed));
        Assert.Equal("Q-2", open.Patient?.Value);
        Assert.Single(open.Notes);
        Assert.Single(open.EyeStatuses);

        var exam = Script.Run(amended + "sign 2 two; shape R round").Exam;
        Assert.Equal((ExamStatus.Amended, false, true), (exam.Status, exam.IsBeingAmended, exam.IsSealed));
        Assert.Equal(["one", "two"], exam.SignedVersions.Select(v => v.Record));
        Assert.Equal([null, "wrong shape"], exam.SignedVersions.Select(v => v.Reason));
        Assert.Equal(open.Judgements, exam.Judgements);
        Assert.Single(exam.RefusedJudgements);
    }

    [Fact]
    public void An_amendment_can_be_taken_back_until_something_was_entered_in_it()
    {
        Assert.True(Script.Run(Ready + "sign 1; a: amend; undo a").Exam.IsSealed);
        Assert.True(Script.Run(Ready + "sign 1; a: amend; note n; undo a").Exam.IsBeingAmended);
    }

    [Fact]
    public void A_signed_exam_can_be_set_aside_and_keeps_its_versions()
    {
        var aside = Script.Run(Ready + "sign 1 one; x: aside; note n").Exam;
        Assert.Equal((ExamStatus.SetAside, "one"), (aside.Status, Assert.Single(aside.SignedVersions).Record));
        Assert.Empty(aside.Notes);
        var back = Script.Run(Ready + "sign 1 one; x: aside; undo x").Exam;
        Assert.Equal((ExamStatus.Signed, "one"), (back.Status, Assert.Single(back.SignedVersions).Record));
        var twice = Script.Run(Ready + "sign 1; amend; sign 2; x: aside; undo x").Exam;
        Assert.Equal(ExamStatus.Amended, twice.Status);
    }

    [Fact]
    public void What_is_split_off_in_an_amendment_is_a_new_exam_without_signatures()
    {
        var folded = Script.Run(Ready + "sign 1 one; amend; split r");
        Assert.Equal((ExamStatus.Signed, 1), (folded[1].Status, folded[1].SignedVersions.Count));
        Assert.Equal(
            (ExamStatus.Open, 0, false),
            (folded[2].Status, folded[2].SignedVersions.Count, folded[2].IsSealed)
        );
        Assert.Null(folded[2].Patient);
    }

    [Fact]
    public void Events_that_surely_belong_join_after_the_signature_and_are_told_of_once()
    {
        const string late =
            "meet A; bright; open Q-1; +1000; mode measure; pair R 3200; hold; pair L 3150; pair R 3300; mode idle; +5000;"
            + "@Q7 ready; +100; sign 1 one; +1000; release";
        var exam = Script.Run(late).Exam;
        Assert.Equal(3, exam.Captures.Count);
        var told = Assert.Single(exam.Incidents, i => i.Kind == IncidentKind.ArrivedAfterSigning);
        Assert.Equal("after version 1 was signed", told.Detail);
        Assert.Equal("one", Assert.Single(exam.SignedVersions).Record);
        Assert.Equal(ExamStatus.Signed, exam.Status);
        Assert.Contains(
            "part of it arrived after version 1 was signed",
            ChartText.OneLine(exam),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_capture_that_is_completed_after_the_signature_by_a_later_exams_event_is_told_of()
    {
        // Without mark keys: a late rest joins the exam before it is signed, and the next event completes the pair.
        const string late =
            "meet B; bright; open Q-1; +1000; mode measure; slide R 3200; hold; rest L 12000; +5000; ready; +100; release;"
            + "sign 1; +1000; dim";
        var exam = Script.Run(late).Exam;
        Assert.Equal(2, exam.Captures.Count);
        Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.ArrivedAfterSigning);
    }

    [Fact]
    public void A_record_that_the_journal_cannot_hold_is_refused_with_the_numbers()
    {
        var journal = Script.Journal(Ready + "sign 1 one");
        var last = journal[^1];
        var signed = (ExamSigned)last.Entry;
        Exam With(string record) =>
            Folded.Of([.. journal.Take(journal.Count - 1), new(last.Sequence, signed with { Record = record })]).Exam;
        var exam = With(new string('\u00E4', 30_001));
        Assert.Contains(
            "60002 bytes, and the journal takes at most 60000",
            exam.Incidents[^1].Detail,
            StringComparison.Ordinal
        );
        Assert.Equal(ExamStatus.ReadyForReview, exam.Status);
        Assert.Equal(ExamStatus.Signed, With(new string('\u00E4', 30_000)).Status);
        Assert.Contains("empty", With(" ").Incidents[^1].Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, ExamStatus.Signed)]
    [InlineData(-1, ExamStatus.ReadyForReview)]
    public void A_record_that_does_not_know_the_exams_last_entry_is_not_signed(int offset, object status)
    {
        var journal = Script.Journal(Ready + "note late; sign 1 one");
        var last = journal[^1];
        var seen = new JournalSequence(last.Sequence.Value - 1 + offset);
        var signed = (ExamSigned)last.Entry with { MadeUpTo = seen };
        var exam = Folded.Of([.. journal.Take(journal.Count - 1), new(last.Sequence, signed)]).Exam;
        Assert.Equal((ExamStatus)status, exam.Status);
    }

    [Fact]
    public void An_erased_record_leaves_the_signature_standing()
    {
        var journal = Script.Journal(Ready + "sign 1 one; amend; sign 2 two");
        var erased = journal.Select(e => e.Entry is ExamSigned s ? e with { Entry = s with { Record = null } } : e);
        var exam = Folded.Of([.. erased]).Exam;
        Assert.Equal((ExamStatus.Amended, 2), (exam.Status, exam.SignedVersions.Count));
        Assert.All(exam.SignedVersions, v => Assert.Null(v.Record));
    }

    [Fact]
    public void Entries_about_people_and_the_days_list_are_noted_and_touch_no_exam()
    {
        var journal = Script.Journal(Ready);
        var entry = new DayListEntered
        {
            Id = new(99),
            Who = new("AB"),
            At = new(0),
            ProgramVersion = "0",
            Date = new(2026, 11, 25),
            Items = [],
            SourceName = "",
        };
        var folded = Folded.Of([.. journal, new(new(journal.Count + 1), entry)]);
        Assert.Equal(entry, Assert.IsType<EntryNoted>(folded.Changes[^1]).Entry);
        Assert.Equal(Script.Run(Ready).Exam, folded.Exam);
    }
}
