using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;

namespace PupilBridge.Exams.Records;

/// <summary>What people judged, as a record has it.</summary>
internal static class RecordJudging
{
    private readonly record struct Said(string Judged, string Answer)
    {
        public string? Eye { get; init; }

        public string? Lit { get; init; }

        public string? Dwell { get; init; }

        public string? Watched { get; init; }
    }

    public static RecordJudgement Of(Exam exam, JudgementRecord judgement)
    {
        var isTakenBack = judgement.WithdrawnBy is not null;
        var counts = !isTakenBack && IsCurrent(exam, judgement);
        return Of(Read(judgement.Judgement)) with
        {
            Who = judgement.Who.Value,
            At = RecordWords.Of(judgement.At),
            Sequence = judgement.Sequence.Value,
            Stimulus = judgement.Stimulus?.Value,
            Run = judgement.Run,
            Light = RecordWords.OfMaybe(judgement.Light),
            Fixation = RecordWords.OfMaybe(judgement.Fixation),
            Counts = counts,
            WhyNot =
                isTakenBack ? "taken-back"
                : counts ? null
                : "replaced",
        };
    }

    public static RecordJudgement Of(RefusedJudgement refused) =>
        Of(Read(refused.Judgement)) with
        {
            Who = refused.Who.Value,
            At = RecordWords.Of(refused.At),
            Sequence = refused.Sequence.Value,
            WhyNot = RecordWords.Of(refused.Reason),
        };

    public static RecordSwinging Swings(Exam exam)
    {
        var swinging = Swinging.Of(exam);
        return new(
            RecordWords.Of(swinging.State),
            RecordWords.OfMaybe(swinging.Eye),
            [
                .. swinging.Dwells.Select(d => new RecordDwell(
                    RecordWords.Of(d.Dwell),
                    RecordWords.OfMaybe(d.Outcome?.Finding),
                    d.Sequence?.Value,
                    d.Run,
                    d.IsTimely,
                    d.DiffersFromBefore
                )),
            ]
        );
    }

    private static bool IsCurrent(Exam exam, JudgementRecord record) =>
        record.Judgement switch
        {
            ShapeJudgement j => CurrentJudgements.Shape(exam, j.Eye) == record,
            DirectResponse j => CurrentJudgements.Direct(exam, j.Eye) == record,
            ConsensualResponse j => CurrentJudgements.Consensual(exam, j.Lit) == record,
            NearResponse j => CurrentJudgements.Near(exam, j.Eye) == record,
            SlowToDilate j => CurrentJudgements.SlowToDilate(exam, j.Eye) == record,
            SwingOutcome j => CurrentJudgements.Swings(exam, j.Dwell).Contains(record),
            _ => false,
        };

    private static Said Read(Judgement judgement) =>
        judgement switch
        {
            ShapeJudgement j => new("shape", RecordWords.Of(j.Shape)) { Eye = RecordWords.Of(j.Eye) },
            DirectResponse j => new("direct", j.Grade.ToString()) { Eye = RecordWords.Of(j.Eye) },
            ConsensualResponse j => new("consensual", j.Grade.ToString())
            {
                Eye = RecordWords.Of(j.Observed),
                Lit = RecordWords.Of(j.Lit),
            },
            SwingOutcome j => new("swinging", RecordWords.Of(j.Finding))
            {
                Dwell = RecordWords.Of(j.Dwell),
                Watched = RecordWords.Of(j.Observed),
            },
            NearResponse j => new("near", j.Grade.ToString()) { Eye = RecordWords.Of(j.Eye) },
            SlowToDilate j => new("slow-to-dilate", "seen") { Eye = RecordWords.Of(j.Eye) },
            _ => throw new ArgumentException($"{judgement.GetType().Name} is no known judgement.", nameof(judgement)),
        };

    private static RecordJudgement Of(Said said) =>
        new()
        {
            Judged = said.Judged,
            Eye = said.Eye,
            Lit = said.Lit,
            Dwell = said.Dwell,
            Answer = said.Answer,
            Watched = said.Watched,
            Who = "?",
            At = "",
            Sequence = 0,
            Stimulus = null,
            Run = 0,
            Light = null,
            Fixation = null,
            Counts = false,
            WhyNot = null,
        };
}
