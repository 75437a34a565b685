using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>The fields of a judgement: a number for its kind, then what it says.</summary>
internal static class JudgementFields
{
    private const int Shape = 1;
    private const int Direct = 2;
    private const int Consensual = 3;
    private const int Swing = 4;
    private const int Near = 5;
    private const int Slow = 6;

    public static void Write(EntryWriter writer, Judgement judgement)
    {
        switch (judgement)
        {
            case ShapeJudgement shape:
                writer.Count(Shape);
                writer.Choice(shape.Eye);
                writer.Choice(shape.Shape);
                break;
            case DirectResponse direct:
                writer.Count(Direct);
                writer.Choice(direct.Eye);
                WriteGrade(writer, direct.Grade);
                break;
            case ConsensualResponse consensual:
                writer.Count(Consensual);
                writer.Choice(consensual.Lit);
                writer.Choice(consensual.Observed);
                WriteGrade(writer, consensual.Grade);
                break;
            case SwingOutcome swing:
                writer.Count(Swing);
                writer.Choice(swing.Dwell);
                writer.Choice(swing.Finding);
                writer.Choice(swing.Observed);
                break;
            case NearResponse near:
                writer.Count(Near);
                writer.Choice(near.Eye);
                WriteGrade(writer, near.Grade);
                break;
            case SlowToDilate slow:
                writer.Count(Slow);
                writer.Choice(slow.Eye);
                break;
            default:
                throw new ArgumentException($"{judgement.GetType().Name} is no known judgement.", nameof(judgement));
        }
    }

    public static Judgement Read(ref EntryReader reader)
    {
        var kind = reader.Count(int.MaxValue);
        return kind switch
        {
            Shape => new ShapeJudgement(reader.Choice<Eye>(), reader.Choice<PupilShape>()),
            Direct => new DirectResponse(reader.Choice<Eye>(), ReadGrade(ref reader)),
            Consensual => new ConsensualResponse(reader.Choice<Eye>(), reader.Choice<Eye>(), ReadGrade(ref reader)),
            Swing => new SwingOutcome(
                reader.Choice<Block>(),
                reader.Choice<SwingFinding>(),
                reader.Choice<PupilsObserved>()
            ),
            Near => new NearResponse(reader.Choice<Eye>(), ReadGrade(ref reader)),
            Slow => new SlowToDilate(reader.Choice<Eye>()),
            _ => throw new FormatException($"a judgement of kind {kind} is not known"),
        };
    }

    // 0 is "could not see", otherwise one more than the half steps.
    public static void WriteGrade(EntryWriter writer, Grade grade) => writer.Count((grade.HalfSteps ?? -1) + 1);

    public static Grade ReadGrade(ref EntryReader reader)
    {
        var stored = reader.Count(Grade.MaxHalfSteps + 1);
        return stored == 0 ? Grade.CouldNotSee : Grade.FromHalfSteps(stored - 1);
    }
}
