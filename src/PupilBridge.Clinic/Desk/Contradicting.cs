using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>What a person is told whose judgement is taken and contradicts what stands in the exam.</summary>
internal static class Contradicting
{
    /// <summary>The words.</summary>
    /// <returns>Null if it contradicts nothing, or only what the same person said before.</returns>
    public static string? Of(Exam exam, PersonEntry entry)
    {
        var found = Contradictions
            .Of(exam)
            .FirstOrDefault(one => one.Stands.Entry == entry.Id && one.Kind != ContradictionKind.Replaced);
        return found switch
        {
            null => null,
            { Other: { } other } => ClinicText.Desk.Of(
                "Contradiction",
                found.Kind,
                other.Who,
                JudgementSyntax.Write(other.Judgement)
            ),
            _ => ClinicText.Desk.Of("Contradiction", found.Kind),
        };
    }
}
