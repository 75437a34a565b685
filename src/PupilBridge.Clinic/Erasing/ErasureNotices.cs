using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Erasing;

/// <summary>What a person is told once a patient has been erased: what went, and what the clinic has to see to itself.</summary>
internal static class ErasureNotices
{
    /// <summary>
    /// What went, after it counts: only then it is sure what was on its way to another system before, since nothing begins after it.
    /// </summary>
    public static string Of(IClinicHouse house, PatientErased erased)
    {
        var told = ClinicText.Desk.Get(
            "Erased.Done",
            erased.Exams.Count,
            erased.Records,
            erased.Texts.Count,
            erased.Patients.Count
        );
        var sent = Sent([.. erased.Exams.Select(house.FindExam).OfType<Exam>()]);
        return sent.Count == 0
            ? $"{told} {ClinicText.Desk["Erased.NotSent"]} {ClinicText.Desk["Erased.Elsewhere"]}"
            : $"{told} {ClinicText.Desk.Get("Erased.Sent", string.Join("; ", sent))} {ClinicText.Desk["Erased.Elsewhere"]}";
    }

    private static IReadOnlyList<string> Sent(IReadOnlyList<Exam> exams) =>
        [
            .. exams
                .SelectMany(exam => exam.SignedVersions, (exam, version) => (Exam: exam, version.Version))
                .Select(one => (one.Exam, one.Version, Steps: OutboxStates.StepsOf(one.Exam, one.Version)))
                .Where(one => OutboxStates.MayBeThere(one.Steps))
                .Select(one =>
                    ClinicText.Desk.Get(
                        "Erased.SentOne",
                        one.Exam.Id,
                        one.Version,
                        one.Steps.Last(step => step.Destination.Length > 0).Destination,
                        one.Steps.LastOrDefault(step => step.Location is not null)?.Location ?? "-"
                    )
                ),
        ];
}
