using System.Globalization;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// The one thing asked for now. A question is pinned to what was to be seen when its opportunity came: neither the dial nor further
/// stimuli change what an answer to it means.
/// </summary>
internal static class LanePrompts
{
    /// <summary>The prompt of an exam.</summary>
    public static LanePrompt Of(Exam exam)
    {
        var asked = Asked.Of(exam);
        return IsQuestion(asked.For) ? Make(exam, asked, AboutOf(exam, asked), isOptional: false)
            : SwingRepeats.Of(exam) is { } repeat ? Make(exam, repeat.Asked, repeat.Stimulus, isOptional: true)
            : Make(exam, asked, null, isOptional: false);
    }

    /// <summary>The questions that may be answered beside it and need not be. A key opens one; none opens by itself.</summary>
    public static IReadOnlyList<LanePrompt> Optional(Exam exam) =>
        [.. ConsensualOffers.Of(exam).Select(asked => Make(exam, asked, AboutOf(exam, asked), isOptional: true))];

    private static LanePrompt Make(Exam exam, Asked asked, long? stimulus, bool isOptional)
    {
        // Both pupils are looked at together, and one key says of both which is not round.
        var eye = asked.For == AskedFor.JudgeShape && BothShapesAreOpen(exam) ? null : asked.Eye;
        var step = asked.Step is { } s ? ClinicWords.Steps[s] : null;
        return new LanePrompt
        {
            Key = Key(exam, asked, step, eye, stimulus),
            Accepts = Accepts(exam, asked.For),
            Judges = Judges(asked, eye),
            Step = step,
            Eye = eye is { } one ? ClinicWords.Eyes[one] : null,
            Stimulus = stimulus,
            Words = PromptWords.Of(asked, eye),
            Detail = PromptWords.Detail(exam, asked, isOptional),
            IsOptional = isOptional || asked.For == AskedFor.GradeConsensual,
        };
    }

    private static string Key(Exam exam, Asked asked, string? step, Eye? eye, long? stimulus)
    {
        var (which, about) = (
            eye is { } one ? ClinicWords.Eyes[one] : null,
            stimulus?.ToString(CultureInfo.InvariantCulture)
        );
        return string.Join('|', exam.Id, Shown.Word(asked.For), step ?? "-", which ?? "-", about ?? "-");
    }

    private static string Accepts(Exam exam, AskedFor what) =>
        what switch
        {
            AskedFor.GradeDirect or AskedFor.GradeNear or AskedFor.GradeConsensual => "grade",
            AskedFor.JudgeShape => "shape",
            AskedFor.WhichConstrictsLess or AskedFor.WhichLetsGo => "swing",
            AskedFor.SayRoomLight
            or AskedFor.MakeBright
            or AskedFor.MakeDim when LaneRooms.MustBeSaid(exam.Instrument?.Abilities ?? InstrumentAbilities.None) =>
                "light",
            // After lost events a sensor that sees no change says nothing: then a person may say it.
            AskedFor.SayRoomLight => "light",
            AskedFor.MakeReady => "ready",
            _ => "none",
        };

    private static string Judges(Asked asked, Eye? eye)
    {
        var which = eye is { } one ? ClinicWords.Eyes[one] : "both";
        return asked.For switch
        {
            AskedFor.GradeDirect => $"direct {which}",
            AskedFor.GradeNear => $"near {which}",
            AskedFor.GradeConsensual => $"consensual lit {which}",
            AskedFor.JudgeShape => $"shape {which}",
            AskedFor.WhichConstrictsLess or AskedFor.WhichLetsGo => $"swing {ClinicWords.Dwells[asked.Block]}",
            _ => "",
        };
    }

    private static bool IsQuestion(AskedFor what) =>
        what
            is AskedFor.JudgeShape
                or AskedFor.GradeDirect
                or AskedFor.GradeNear
                or AskedFor.GradeConsensual
                or AskedFor.WhichConstrictsLess
                or AskedFor.WhichLetsGo;

    private static bool BothShapesAreOpen(Exam exam) =>
        ExamSteps.Of(exam).FirstOrDefault(step => step.Step == ExamStep.Shape) is { Missing.Length: 2 };

    /// <summary>The stimulus that opened a question: the first complete one that shows what is asked.</summary>
    private static long? AboutOf(Exam exam, Asked asked) =>
        asked.For switch
        {
            AskedFor.GradeDirect or AskedFor.GradeConsensual => exam
                .Stimuli.FirstOrDefault(s =>
                    s.Eye == asked.Eye && s.Block == Block.Direct && s.End == StimulusEnd.Complete
                )
                ?.On.Sequence.Value,
            AskedFor.WhichConstrictsLess or AskedFor.WhichLetsGo => BlockRuns
                .Of(exam, asked.Block)
                .FirstOrDefault(run => run.HasReachedCount)
                ?.First.Value,
            _ => null,
        };
}
