using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Tests.Projection;

public sealed class ExamFindingsTests
{
    [Fact]
    public async Task A_short_exam_is_incomplete_waits_first_for_review_and_is_found_by_that_as_after_a_rebuild()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        await bench.WrittenAsync(id);

        var found = bench.Bridge.ExamLog.Read(log =>
            (
                Listed: log.ListExams(new ExamQuery { Finding = ExamFindings.Incomplete, Examiner = "mk" }),
                log.ListForReview()
            )
        );
        Assert.Equal(ExamDocuments.IdOf(id), Assert.Single(found.Listed.Items).Id);
        // The short words, and the criteria that are met, by their ids.
        Assert.Equal(
            [ExamFindings.BeforeDrops, "exam-incomplete", ExamFindings.Incomplete],
            found.Listed.Items[0].Findings
        );
        Assert.Single(
            bench.Bridge.ExamLog.Read(log => log.ListExams(new ExamQuery { Finding = "exam-incomplete" }).Items)
        );
        Assert.Equal(ReviewTurn.First, Assert.Single(found.Item2.Items).Review);
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        var check = ProjectionCheck.Offline(new BridgeParts { Options = bench.Options, Disk = bench.Disk }, default);
        Assert.True(check.IsSame, check.ToString());
    }

    [Fact]
    public async Task Judgements_that_count_give_their_words_and_those_taken_back_do_not()
    {
        var exam = await ExamAsync();

        Assert.Equal([], Only(exam, Judged(new ShapeJudgement(Eye.Left, PupilShape.Round))));
        Assert.Equal([ExamFindings.NotRound], Only(exam, Judged(new ShapeJudgement(Eye.Left, PupilShape.NotRound))));
        Assert.Equal([], Only(exam, Judged(new ShapeJudgement(Eye.Left, PupilShape.CouldNotSee))));
        Assert.Equal([ExamFindings.PoorDirect], Only(exam, Judged(new DirectResponse(Eye.Right, Grade.Of(1)))));
        Assert.Equal([], Only(exam, Judged(new DirectResponse(Eye.Right, Grade.Of(4)))));
        Assert.Equal([], Only(exam, Judged(new DirectResponse(Eye.Right, Grade.CouldNotSee))));
        Assert.Equal([ExamFindings.SwingAsymmetry], Only(exam, Judged(Swing(SwingFinding.LeftWorse))));
        Assert.Equal([], Only(exam, Judged(Swing(SwingFinding.Alike))));
        var takenBack = Judged(Swing(SwingFinding.LeftWorse)) with { WithdrawnBy = new EntryId(9) };
        Assert.Equal([], Only(exam, takenBack));
    }

    [Fact]
    public async Task Lost_events_are_a_gap_and_an_open_exam_is_not_incomplete()
    {
        var exam = await ExamAsync();
        var lost = exam with { Incidents = [new Incident(IncidentKind.EventsLost, exam.LastActivity, "12 to 14")] };

        Assert.DoesNotContain(ExamFindings.Gap, ExamFindings.Of(exam));
        Assert.Contains(ExamFindings.Gap, ExamFindings.Of(lost));
        Assert.Contains(ExamFindings.Incomplete, ExamFindings.Of(exam));
        Assert.DoesNotContain(
            ExamFindings.Incomplete,
            ExamFindings.Of(exam with { Closing = null, Status = ExamStatus.Open })
        );
    }

    [Fact]
    public async Task Sizes_that_surely_differ_are_anisocoria_and_no_others()
    {
        var exam = await ExamAsync();

        Assert.DoesNotContain(ExamFindings.Anisocoria, ExamFindings.Of(InBrightLight(exam, 200)));
        Assert.DoesNotContain(ExamFindings.Anisocoria, ExamFindings.Of(exam));
        Assert.Contains(ExamFindings.Anisocoria, ExamFindings.Of(InBrightLight(exam, 2000)));
        Assert.Contains(ExamFindings.BeforeDrops, ExamFindings.Of(InBrightLight(exam, 2000)));
    }

    [Theory]
    [InlineData(ExamStatus.Open, ReviewTurn.First)]
    [InlineData(ExamStatus.ReadyForReview, ReviewTurn.First)]
    [InlineData(ExamStatus.Signed, ReviewTurn.NotWaiting)]
    [InlineData(ExamStatus.Amended, ReviewTurn.NotWaiting)]
    [InlineData(ExamStatus.SetAside, ReviewTurn.NotWaiting)]
    public async Task Exams_that_are_ready_or_left_open_wait_for_review(ExamStatus status, ReviewTurn expected)
    {
        var exam = await ExamAsync();

        Assert.Equal(expected, ExamDocuments.Of(exam with { Status = status }).Review);
    }

    [Fact]
    public async Task A_running_exam_does_not_wait_and_one_that_is_being_amended_does()
    {
        var exam = await ExamAsync();
        var amendment = new Amendment(new EntryId(8), new JournalSequence(80), new PersonId("DR"), new UtcTime(0), "r");

        Assert.Equal(
            ReviewTurn.NotWaiting,
            ExamDocuments.Of(exam with { Status = ExamStatus.Open, Closing = null }).Review
        );
        Assert.NotEqual(
            ReviewTurn.NotWaiting,
            ExamDocuments.Of(exam with { Status = ExamStatus.Signed, Amendment = amendment }).Review
        );
    }

    /// <summary>A finished exam with two sizes in a light that nobody said, and one shape.</summary>
    private static async Task<Exam> ExamAsync()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        return await bench.WrittenAsync(await bench.ExamineAsync("Q-1001"));
    }

    /// <summary>The words that come of one judgement alone, without those that tell what is missing.</summary>
    private static ValueList<string> Only(Exam exam, JudgementRecord judgement) =>
        ExamFindings
            .Of(exam with { Judgements = [judgement] })
            .Where(word => word is not (ExamFindings.Incomplete or ExamFindings.BeforeDrops));

    private static JudgementRecord Judged(Judgement judgement) =>
        new()
        {
            Entry = new EntryId(7),
            Sequence = new JournalSequence(70),
            Who = new PersonId("MK"),
            At = default,
            Judgement = judgement,
            StepSeen = null,
            Stimulus = null,
            Run = 1,
            Light = null,
            Fixation = null,
            WithdrawnBy = null,
        };

    private static SwingOutcome Swing(SwingFinding finding) => new(Block.SwingShort, finding, PupilsObserved.Both);

    /// <summary>Both captures as if the room had been bright, the left pupil larger by so many micrometres.</summary>
    private static Exam InBrightLight(Exam exam, int largerMicrometres) =>
        exam with
        {
            Captures =
            [
                .. exam.Captures.Select(capture =>
                    capture with
                    {
                        Light = RoomLight.Bright,
                        Raw = new(4000 + (capture.Eye == Eye.Left ? largerMicrometres : 0)),
                    }
                ),
            ],
        };
}
