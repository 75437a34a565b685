using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Clinic.Desk;

/// <summary>What a person should know about an entry that is taken all the same.</summary>
internal static class Notices
{
    /// <summary>Looked at before the entry is recorded.</summary>
    /// <returns>Null if there is nothing to say.</returns>
    public static string? Before(IClinicHouse house, PersonEntry entry) =>
        entry switch
        {
            ExamOpened opened => Join(
                Join(BreaksOff(house, opened), StillOpen(house, opened)),
                UnknownPatient(house, opened.Patient)
            ),
            ExamAttached attached => UnknownPatient(house, attached.Patient),
            ExamMoved moved => UnknownPatient(house, moved.Patient),
            ExamMadeReady ready => house.FindExam(ready.Exam) is { } exam ? NotExamined(exam) : null,
            _ => null,
        };

    /// <summary>A patient goes before the bench: the run ends, and nothing of it is lost.</summary>
    private static string? BreaksOff(IClinicHouse house, ExamOpened opened) =>
        house.Book.OpenRunOf(opened.Serial) is { Bench: { } run } sitting
            ? ClinicText.Desk.Get("Notice.RunBrokenOff", sitting.Id, opened.Serial, run.Technician)
            : null;

    private static string? StillOpen(IClinicHouse house, ExamOpened opened) =>
        house.Book.OpenExamOf(opened.Serial) is { } open
            ? ClinicText.Desk.Get(
                "Notice.StillOpen",
                open.Id,
                open.Patient?.Value ?? ClinicText.Desk["Notice.NoPatient"],
                opened.Serial
            )
            : null;

    private static string? UnknownPatient(IClinicHouse house, PatientId? patient)
    {
        try
        {
            return patient is { } number && house.ReadLog(log => log.FindPatient(number.Value)) is null
                ? ClinicText.Desk.Get("Notice.UnknownPatient", number)
                : null;
        }
        catch (ExamLogBrokenException)
        {
            // The list of patients is being made anew; an entry does not wait for that.
            return null;
        }
    }

    private static string? NotExamined(Exam exam)
    {
        var missing = ExamSteps
            .Of(exam)
            .Where(step => step.State is StepState.Due or StepState.NotYet or StepState.Skipped)
            .Select(step => step.Step)
            .ToList();
        return missing.Count == 0
            ? null
            : ClinicText.Desk.Get(
                "Notice.LeftOut",
                string.Join(", ", missing.Select(HouseWords.Within)),
                string.Join(", ", missing.Select(Word))
            );
    }

    private static string Word(ExamStep step) => ClinicWords.Steps[step];

    /// <summary>Two notices as one.</summary>
    /// <returns>Null if there is neither.</returns>
    public static string? Join(string? one, string? other) =>
        one is null ? other
        : other is null ? one
        : $"{one} {other}";
}
