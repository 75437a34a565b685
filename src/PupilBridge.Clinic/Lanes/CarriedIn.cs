using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// An exam that a person opened takes over what the instrument told before with its own first event. A lane shows it so at once: nobody
/// is to be asked for a light that the instrument told a minute ago.
/// </summary>
internal sealed class CarriedIn
{
    private Exam? source;
    private (LightSaid? Light, FixationSaid? Fixation) told;
    private Exam? result;

    /// <summary>The exam at work on an instrument; the same object again as long as nothing about it changed.</summary>
    /// <returns>Null if there is none.</returns>
    public Exam? Of(ExamBook book, SerialNumber serial)
    {
        var exam = book.OpenExamOf(serial);
        if (exam is null || book.Lane(serial) is not { OpenExamHasEvents: false } lane)
        {
            return exam;
        }

        if (!ReferenceEquals(source, exam) || told != (lane.Light, lane.Fixation))
        {
            (source, told, result) = (exam, (lane.Light, lane.Fixation), With(exam, lane));
        }

        return result;
    }

    private static Exam With(Exam exam, LaneState lane) =>
        exam with
        {
            Light = exam.Light.Count == 0 && lane.Light is { } light ? [light] : exam.Light,
            Fixations = exam.Fixations.Count == 0 && lane.Fixation is { } fixation ? [fixation] : exam.Fixations,
            Instrument = exam.Instrument ?? lane.Identity,
        };
}
