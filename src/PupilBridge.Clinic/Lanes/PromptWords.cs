using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>What is asked for, in few words for large letters, and a line more about it.</summary>
internal static class PromptWords
{
    /// <summary>The most characters of a prompt in English, so that it can be read from 1.5 m.</summary>
    public const int MostCharacters = 40;

    /// <summary>The words.</summary>
    public static string Of(Asked asked, Eye? eye) =>
        asked.For switch
        {
            AskedFor.JudgeShape when eye is null => ClinicText.Lane.Get("Prompt.JudgeBothShapes"),
            AskedFor.RunBlock => ClinicText.Lane.Of("RunBlock", asked.Block),
            AskedFor.GradeConsensual when eye is { } lit => ClinicText.Lane.Of(
                "Prompt",
                asked.For,
                HouseWords.Of(lit),
                HouseWords.Of(lit.Fellow())
            ),
            _ => ClinicText.Lane.Of("Prompt", asked.For, eye is { } one ? HouseWords.Of(one) : ""),
        };

    /// <summary>More about it.</summary>
    public static string Detail(Exam exam, Asked asked, bool isRepeat) =>
        asked.For switch
        {
            AskedFor.WhichConstrictsLess or AskedFor.WhichLetsGo => Swing(exam, asked.Block, isRepeat),
            AskedFor.RunBlock => Block(exam, asked.Block),
            AskedFor.Measure => Measuring(exam, asked.Step),
            AskedFor.GradeConsensual when asked.Eye is { } lit => Consensual(exam, lit),
            AskedFor.GradeDirect or AskedFor.GradeNear => Grading(exam, asked.For),
            _ => ClinicText.Lane.Of("PromptDetail", asked.For),
        };

    /// <summary>Both ends of the scale in the clinic's own words, by the legend in force at this exam.</summary>
    private static string Grading(Exam exam, AskedFor what)
    {
        var grades = exam.Profile.Legend.Grades;
        return ClinicText.Lane.Of("PromptDetail", what, grades[0], grades[^1]);
    }

    /// <summary>The eye that is lit and the pupil that is watched are two things, and both are named.</summary>
    private static string Consensual(Exam exam, Eye lit)
    {
        var grades = exam.Profile.Legend.Grades;
        var (light, watched) = (HouseWords.Of(lit), HouseWords.Of(lit.Fellow()));
        return ClinicText.Lane.Of("PromptDetail", AskedFor.GradeConsensual, grades[0], grades[^1], light, watched);
    }

    private static string Measuring(Exam exam, ExamStep? step)
    {
        var light =
            ExamConditions.LightNow(exam) is { } now && step is ExamStep.SizesBright or ExamStep.SizesDim
                ? $"{HouseWords.Of(now)} "
                : "";
        var how =
            exam.Instrument?.Abilities.HasFlag(InstrumentAbilities.MarkKeys) == true
                ? ClinicText.Lane.Get("Measure.WithMarks")
                : ClinicText.Lane.Get("Measure.FromHome");
        return $"{light}{how}";
    }

    private static string Swing(Exam exam, Block dwell, bool isRepeat)
    {
        var seconds = Seconds(Train(exam, dwell).DwellMilliseconds);
        return isRepeat
            ? ClinicText.Lane.Of("SwingRepeat", dwell, seconds)
            : ClinicText.Lane.Of("SwingDetail", dwell, seconds);
    }

    private static string Block(Exam exam, Block block)
    {
        var run = BlockRuns.Of(exam, block).LastOrDefault(r => !r.HasReachedCount);
        if (block is Instrument.Block.SwingShort or Instrument.Block.SwingLong)
        {
            var train = Train(exam, block);
            return ClinicText.Lane.Get(
                "Block.Swing",
                train.Alternations,
                Seconds(train.DwellMilliseconds),
                run?.Alternations ?? 0
            );
        }

        var direct = exam.Profile.Direct;
        return ClinicText.Lane.Get(
            "Block.Direct",
            direct.StimuliPerEye,
            Seconds(direct.DwellMilliseconds),
            run?.Right ?? 0,
            run?.Left ?? 0
        );
    }

    private static SwingTrain Train(Exam exam, Block dwell) =>
        dwell == Instrument.Block.SwingShort ? exam.Profile.SwingShort : exam.Profile.SwingLong;

    private static double Seconds(int milliseconds) => milliseconds / 1000.0;
}
