using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class CourseTests
{
    private const string Begin = "meet A; bright; mode measure; +500; pair R 3200; pair L 3100;";

    [Fact]
    public void An_exam_is_attached_afterwards()
    {
        var exam = Script.Run(Begin + "attach Q-1001").Exam;
        Assert.Equal("Q-1001", exam.Patient!.Value.Value);
        Assert.Equal("seen at the desk", Assert.Single(exam.Course).Reason);
    }

    [Fact]
    public void An_attached_exam_goes_to_another_patient_only_by_moving_it()
    {
        var attached = Script.Run(Begin + "attach Q-1001; attach Q-1002").Exam;
        Assert.Equal("Q-1001", attached.Patient!.Value.Value);
        Assert.Contains(attached.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
        var moved = Script.Run(Begin + "attach Q-1001; move Q-1002").Exam;
        Assert.Equal("Q-1002", moved.Patient!.Value.Value);
        Assert.Equal([CourseKind.Attached, CourseKind.Moved], moved.Course.Select(c => c.Kind));
    }

    [Fact]
    public void Attaching_can_be_taken_back() =>
        Assert.Null(Script.Run(Begin + "a: attach Q-1001; undo a").Exam.Patient);

    [Fact]
    public void A_split_parts_the_facts_and_keeps_them_all()
    {
        var folded = Script.Run(
            Begin + "attach Q-1001; +5000; s: mode measure; pair R 4000; shape R round; split s; pair L 4100"
        );
        Assert.Equal([3200, 3100], folded[1].Captures.Select(c => c.Raw.Value));
        Assert.Equal([4000, 4100], folded[2].Captures.Select(c => c.Raw.Value));
        Assert.Equal(("Q-1001", ClosingReason.Split), (folded[1].Patient!.Value.Value, folded[1].Closing!.Reason));
        Assert.Null(folded[2].Patient);
        Assert.Equal(folded[1].Id, Assert.Single(folded[2].Course).OtherExam);
        Assert.Equal(Exams.Entries.RoomLight.Bright, folded[2].Captures[0].Light);
        Assert.Single(folded[2].Judgements);
    }

    [Fact]
    public void An_edge_pair_that_a_split_cuts_becomes_none()
    {
        var folded = Script.Run(Begin + "edge R N 5000; s: edge R T 9000; pair L 4000; split s");
        Assert.DoesNotContain(folded.Exams.Values, e => e.Captures.Any(c => c.Raw.Value == 4000 && c.Eye == Eye.Right));
        Assert.Contains(folded[2].RefusedPairs, p => p.Reason == PairRefusalReason.Split);
    }

    [Fact]
    public void A_split_outside_the_exam_is_not_applied()
    {
        var folded = Script.Run("s: meet A; bright; mode measure; +500; pair R 3200; split s");
        Assert.Contains(folded.Exam.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
    }

    [Fact]
    public void Making_ready_can_be_taken_back_and_the_border_stays()
    {
        var exam = Script.Run(Begin + "r: ready; undo r").Exam;
        Assert.Equal(ExamStatus.Open, exam.Status);
        Assert.NotNull(exam.Closing);
    }

    [Fact]
    public void An_exam_set_aside_is_not_made_ready()
    {
        var exam = Script.Run(Begin + "aside; ready").Exam;
        Assert.Equal(ExamStatus.SetAside, exam.Status);
    }

    [Fact]
    public void Taking_back_what_is_not_there_is_said()
    {
        var exam = Script.Run(Begin + "p: patient Q-1001; undo p").Exam;
        Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
    }

    [Fact]
    public void An_entry_on_an_exam_that_does_not_exist_is_ignored_with_the_reason()
    {
        var folded = Script.Run("p: patient Q-1001; ready exam=p");
        Assert.Contains("no exam", Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason);
    }

    [Fact]
    public void Steps_are_due_in_order_skipped_when_left_and_accepted_when_someone_says_so()
    {
        StepState Of(string script, ExamStep step) =>
            ExamSteps.Of(Script.Run(Begin + script).Exam).Single(s => s.Step == step).State;

        Assert.Equal(StepState.Done, Of("", ExamStep.SizesBright));
        Assert.Equal(StepState.Due, Of("", ExamStep.SizesDim));
        Assert.Equal(StepState.NotYet, Of("", ExamStep.Direct));
        Assert.Equal(StepState.Skipped, Of("mode hold direct; directs", ExamStep.SizesDim));
        Assert.Equal(StepState.AcceptedNotExamined, Of("accept SizesDim", ExamStep.SizesDim));
        Assert.Equal(StepState.NotPossible, Of("status R prosthesis", ExamStep.SwingShort));
        Assert.Equal(StepState.Due, Of("a: accept SizesDim; undo a", ExamStep.SizesDim));
    }

    [Fact]
    public void What_was_seen_and_is_only_to_be_entered_is_not_left_out_and_a_shape_judged_early_leaves_nothing_out()
    {
        Exam After(string script) => Script.Run(Begin + script).Exam;
        ExamStep? LeftOut(Exam exam) =>
            Reminders.Of(exam).FirstOrDefault(r => r.Kind == ReminderKind.StepLeftOut)?.Step;

        const string sizes = "shape R round; shape L round; dim; +20000; pair R 5100; pair L 5200;";
        Assert.Null(LeftOut(After("shape R round; shape L round")));
        var waiting = After(sizes + "mode hold direct; directs; mode hold short; swings 1000 4 R");
        Assert.Equal((ExamStep.Direct, null), (Asked.Of(waiting).Step, LeftOut(waiting)));
        Assert.Equal(StepState.Due, ExamSteps.Of(waiting).Single(s => s.Step == ExamStep.Direct).State);
        Assert.Equal(ExamStep.Direct, LeftOut(After(sizes + "mode hold short; swings 1000 4 R")));
    }

    [Fact]
    public void A_question_whose_opportunity_has_come_stays_whatever_the_dial_does()
    {
        Asked After(string script) => Asked.Of(Script.Run(Begin + script).Exam);

        Assert.Equal((AskedFor.JudgeShape, Eye.Right), (After("").For, After("").Eye!.Value));
        Assert.Equal(Eye.Left, After("shape R round").Eye);
        const string direct = "shape R round; shape L round; mode hold direct; directs;";
        Assert.Equal((AskedFor.GradeDirect, Eye.Right), (After(direct).For, After(direct).Eye!.Value));
        var moved = After(direct + "mode hold short; swings 1000 4 R");
        Assert.Equal((AskedFor.GradeDirect, Eye.Right), (moved.For, moved.Eye!.Value));
        Assert.Equal(Eye.Left, After(direct + "mode hold short; swings 1000 4 R; direct R 3").Eye);
    }

    [Fact]
    public void The_profile_in_force_orders_the_steps()
    {
        var exam = Script.Run("profile near;" + Begin).Exam;
        Assert.Equal(ExamStep.Near, ExamSteps.Of(exam)[^1].Step);
        Assert.Equal("near", exam.Profile.Name);
    }
}
