using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Constructed;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tests.Tables;

/// <summary>Exams as they leave the house, made of the constructed exams of docs/criteria.md.</summary>
internal static class Samples
{
    public static OutgoingRecord Of(string done, string? patient = "Q-1001", string? born = null) =>
        new()
        {
            Record = SignedRecords.Of(ConstructedExam.Of(done), "3.0") with { Patient = patient },
            Signature = null,
            Patient = patient is null
                ? null
                : new PatientView(patient, "A. Pilot", born is null ? null : DateOnly.Parse(born)),
            IsSetAside = false,
            Head = null,
        };

    public static OutgoingRecord Signed(this OutgoingRecord exam, int version = 1) =>
        exam with
        {
            Record = exam.Record with { Version = version },
            Signature = new RecordSignature(
                "DR",
                new DateTimeOffset(2026, 3, 2, 10, 0, 0, TimeSpan.Zero),
                900,
                SignedRecordText.Digest(SignedRecordText.Write(exam.Record)),
                IsLatest: true
            ),
        };

    public static OutgoingRecord At(this OutgoingRecord exam, string opened, long number) =>
        exam with
        {
            Record = exam.Record with { Exam = number, Opened = exam.Record.Opened with { At = opened } },
        };
}

/// <summary>A list of exams that gives a few at a time, as the desk does.</summary>
internal sealed class ListedExams(IReadOnlyList<OutgoingRecord> exams, int pageSize = 2, int withheld = 0)
    : IOutgoingPages
{
    public List<OutgoingSearch> Searches { get; } = [];

    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken)
    {
        Searches.Add(search);
        var from = search.After is { } after ? int.Parse(after) : 0;
        var next = from + pageSize;
        return Task.FromResult(
            new OutgoingPage(
                [.. exams.Skip(from).Take(pageSize)],
                from == 0 ? withheld : 0,
                next < exams.Count ? $"{next}" : null
            )
        );
    }
}
