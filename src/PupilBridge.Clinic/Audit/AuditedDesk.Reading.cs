using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Audit;

/// <content>What shows patients.</content>
public sealed partial class AuditedDesk
{
    /// <inheritdoc/>
    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken) =>
        NotedAsync(
            clinic.ListExamsAsync(request, cancellationToken),
            list => List(AuditWhat.Exams, list.Exams.Select(exam => exam.Patient))
        );

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        NotedAsync(
            clinic.ShowExamAsync(exam, cancellationToken),
            found => found is null ? null : OfExam(AuditWhat.Exam, found.Summary)
        );

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        NotedAsync(
            clinic.ChartAsync(exam, cancellationToken),
            found => found is null ? null : OfExam(AuditWhat.Record, found.Exam, null)
        );

    /// <inheritdoc/>
    public Task<OutboxPage> ListOutboxAsync(
        string part,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) =>
        NotedAsync(
            clinic.ListOutboxAsync(part, after, limit, cancellationToken),
            page => List(AuditWhat.Outbox, page.Items.Select(line => line.Patient))
        );

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        NotedAsync(clinic.ListPatientsAsync(after, limit, cancellationToken), OfPatients);

    /// <inheritdoc/>
    public Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) =>
        NotedAsync(
            clinic.ListDueAsync(lastVisitBefore, after, limit, cancellationToken),
            list => List(AuditWhat.Due, list.Patients.Select(one => one.Patient))
        );

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        WatchedAsync(instrument, clinic.WatchAsync(instrument, cancellationToken), cancellationToken);

    /// <inheritdoc/>
    public Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken) =>
        NotedAsync(
            Lanes.LookAtLaneAsync(instrument, cancellationToken),
            found => found is null ? null : Note(AuditWhat.Lane) with { Subject = instrument }
        );

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneBoard> WatchLaneAsync(string instrument, CancellationToken cancellationToken) =>
        WatchedAsync(instrument, Lanes.WatchLaneAsync(instrument, cancellationToken), cancellationToken);

    /// <inheritdoc/>
    public Task<ExamPage> SearchExamsAsync(ExamSearch search, CancellationToken cancellationToken) =>
        NotedAsync(records.SearchExamsAsync(search, cancellationToken), OfExams);

    /// <inheritdoc/>
    public Task<ExamPage> ListForReviewAsync(string? after, int limit, CancellationToken cancellationToken) =>
        NotedAsync(records.ListForReviewAsync(after, limit, cancellationToken), OfExams);

    /// <inheritdoc/>
    public Task<RecordView?> ShowRecordAsync(long exam, CancellationToken cancellationToken) =>
        NotedAsync(
            records.ShowRecordAsync(exam, cancellationToken),
            found => found is null ? null : OfExam(AuditWhat.Record, found.Exam.Summary)
        );

    /// <inheritdoc/>
    public Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken) =>
        NotedAsync(
            records.ShowOutgoingAsync(exam, version, cancellationToken),
            found =>
                found is null
                    ? null
                    : OfExam(AuditWhat.Record, exam, found.Patient?.Patient) with
                    {
                        Version = found.Signature is null ? null : found.Version,
                    }
        );

    /// <inheritdoc/>
    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken) =>
        NotedAsync(
            records.ListOutgoingAsync(search, cancellationToken),
            page => List(AuditWhat.Table, page.Records.Select(record => record.Patient?.Patient))
        );

    /// <inheritdoc/>
    public Task<RawReadingView?> ShowRawAsync(long sequence, CancellationToken cancellationToken) =>
        NotedAsync(
            records.ShowRawAsync(sequence, cancellationToken),
            found =>
                found is null
                    ? null
                    : Note(AuditWhat.Raw) with
                    {
                        Subject = sequence.ToString(System.Globalization.CultureInfo.InvariantCulture),
                    }
        );

    /// <inheritdoc/>
    public Task<PatientList> FindPatientsAsync(
        string text,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => NotedAsync(records.FindPatientsAsync(text, after, limit, cancellationToken), OfPatients);

    /// <inheritdoc/>
    public Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken) =>
        NotedAsync(
            records.ShowPatientAsync(patient, cancellationToken),
            found => found is null ? null : Note(AuditWhat.Patient) with { Patients = [found.Patient] }
        );

    /// <inheritdoc/>
    public Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken) =>
        NotedAsync(
            records.HistoryAsync(patient, limit, cancellationToken),
            found => OfHistory(found.Patient, found.Visits.Count)
        );

    /// <inheritdoc/>
    public Task<DayListView> DayListAsync(DateOnly day, CancellationToken cancellationToken) =>
        NotedAsync(
            records.DayListAsync(day, cancellationToken),
            list => List(AuditWhat.Day, list.Items.Select(item => item.Patient.Patient))
        );

    /// <inheritdoc/>
    public Task<DayListImport> ImportDayListAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellationToken
    ) => records.ImportDayListAsync(csv, fileName, day, by, cancellationToken);

    /// <inheritdoc/>
    public Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken) =>
        NotedAsync(
            bench.WhatIfAsync(request, cancellationToken),
            page => Note(AuditWhat.Table) with { Lines = page.Exams.Count }
        );

    /// <summary>There is a history of every number, if an empty one; whether anybody bears it shows by what is in it.</summary>
    private AuditNote OfHistory(PatientView patient, int visits) =>
        visits > 0 || patient.Name is not null || patient.BirthDate is not null || patient.MergedInto is not null
            ? Note(AuditWhat.History) with
            {
                Patients = [patient.Patient],
                Lines = visits,
            }
            : Note(AuditWhat.History) with
            {
                Asked = patient.Patient,
                Lines = visits,
            };

    private AuditNote OfExams(ExamPage page) => List(AuditWhat.Exams, page.Exams.Select(exam => exam.Summary.Patient));

    private AuditNote OfPatients(PatientList list) =>
        List(AuditWhat.Patients, list.Patients.Select(patient => patient.Patient));
}
