using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Records;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// Why a clinician should see the patient before drops, for the exam at work and the one before it. The earlier visits are looked up
/// once for each: they do not change while a lane changes with every event.
/// </summary>
internal sealed class LaneVisits(IClinicHouse house)
{
    /// <summary>An exam at work and the one before it.</summary>
    private const int Kept = 2;

    private readonly Dictionary<(ExamId, PatientId?), IReadOnlyList<EarlierVisit>> known = [];

    /// <summary>The reasons in words; empty for none so far.</summary>
    public IReadOnlyList<string> BeforeDrops(Exam exam) => BeforeDropsWords.Of(exam, () => Earlier(exam));

    /// <summary>Forgets them: whose visits belong together is not as it was.</summary>
    public void Clear() => known.Clear();

    private IReadOnlyList<EarlierVisit> Earlier(Exam exam)
    {
        var key = (exam.Id, exam.Patient);
        if (known.TryGetValue(key, out var visits))
        {
            return visits;
        }

        try
        {
            visits = EarlierVisits.Of(house, exam);
        }
        catch (ExamLogBrokenException)
        {
            // The exam log is being made anew. What differs today is then told as not known from an earlier visit, which is true.
            return [];
        }

        if (known.Count >= Kept)
        {
            known.Clear();
        }

        return known[key] = visits;
    }
}
