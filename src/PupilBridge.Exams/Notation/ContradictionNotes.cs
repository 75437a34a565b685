using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>What contradicts itself among the judgements, as the chart says it: both answers, whose they are, and what counts.</summary>
internal static class ContradictionNotes
{
    public static IEnumerable<string> Of(Exam exam) => Contradictions.Of(exam).Select(one => Of(exam, one));

    private static string Of(Exam exam, Contradiction one) =>
        (one.Kind, one.Other) switch
        {
            (ContradictionKind.Replaced, { } other) =>
                $"{Thing(one.Stands)}: {Answer(one.Stands)} counts, entered by {one.Stands.Who} after {Answer(other)}",
            (ContradictionKind.OtherPerson, { } other) => $"CONTRADICTION, {Thing(one.Stands)}: {Said(other)}, then "
                + $"{Said(one.Stands)}; the later one stands, and nothing is claimed that the other does not bear out",
            (ContradictionKind.SameRun, { } other) => $"CONTRADICTION, {Thing(one.Stands)}: {Said(other)} and "
                + $"{Said(one.Stands)}; neither counts, repeat",
            _ => $"CONTRADICTION, {Thing(one.Stands)}: {Said(one.Stands)}, though the eye is entered as "
                + $"{Words.Of(ExamConditions.StatusOf(exam, EyeOf(one.Stands)) ?? default)}; nothing is claimed from it",
        };

    private static string Said(JudgementRecord record) => $"{Answer(record)} by {record.Who}";

    private static string Thing(JudgementRecord record) =>
        record.Judgement switch
        {
            ShapeJudgement shape => $"shape of {Words.Of(shape.Eye)}",
            DirectResponse direct => $"direct response of {Words.Of(direct.Eye)}",
            ConsensualResponse consensual => $"consensual response of {Words.Of(consensual.Observed)}",
            NearResponse near => $"near response of {Words.Of(near.Eye)}",
            SwingOutcome { Dwell: Block.SwingShort } => $"swinging, short dwell, run {record.Run}",
            _ => $"swinging, long dwell, run {record.Run}",
        };

    private static string Answer(JudgementRecord record) =>
        record.Judgement switch
        {
            ShapeJudgement shape => Words.Of(shape.Shape),
            DirectResponse direct => Words.Of(direct.Grade),
            ConsensualResponse consensual => Words.Of(consensual.Grade),
            NearResponse near => Words.Of(near.Grade),
            SwingOutcome swing => SwingText.Found(swing.Finding),
            _ => "",
        };

    private static Eye EyeOf(JudgementRecord record) =>
        record.Judgement switch
        {
            ShapeJudgement shape => shape.Eye,
            DirectResponse direct => direct.Eye,
            ConsensualResponse consensual => consensual.Observed,
            NearResponse near => near.Eye,
            _ => throw new ArgumentException("It is about no single pupil.", nameof(record)),
        };
}
