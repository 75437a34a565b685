using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Records;

/// <summary>The exams that await review.</summary>
internal static class ReviewList
{
    /// <summary>One page.</summary>
    public static ExamPage Of(IClinicHouse house, string? after, int limit) =>
        ExamSearching.Of(
            house,
            new ExamSearch
            {
                Status = "ready-for-review",
                After = after,
                Limit = limit,
            }
        );
}
