using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class HistoryTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Visits_stand_beside_each_other_with_sizes_and_grades()
    {
        var first = await VisitAsync("Q-1001", 4_000);
        var other = await VisitAsync("Q-1002", 5_000);
        var second = await VisitAsync("Q-1001", 6_000);
        clinic.House.WriteLog();
        var open = await VisitAsync("Q-1001", 3_000);

        var history = await clinic.Records.HistoryAsync("Q-1001", 50, default);

        Assert.Equal([open, second, first], history.Visits.Select(visit => visit.Exam.Exam));
        Assert.DoesNotContain(history.Visits, visit => visit.Exam.Exam == other);
        Assert.Equal([3.0, 6.0, 4.0], history.Visits.Select(visit => visit.Sizes[0].Millimetres));
        Assert.All(history.Visits, visit => Assert.Equal(["direct OD 3"], visit.Grades));
        Assert.Equal("Q-1001", history.Patient.Patient);
    }

    [Fact]
    public async Task An_exam_that_was_set_aside_is_no_visit()
    {
        var exam = await VisitAsync("Q-1001", 4_000);
        await clinic.EnterAsync(clinic.SettingAside(exam, "wrong eye"));
        clinic.House.WriteLog();

        Assert.Empty((await clinic.Records.HistoryAsync("Q-1001", 50, default)).Visits);
    }

    [Fact]
    public async Task A_patient_is_shown_with_what_is_known()
    {
        await clinic.EnterAsync(clinic.Patient("Q-1001", "A. Pilot"));

        Assert.Equal("A. Pilot", (await clinic.Records.ShowPatientAsync("Q-1001", default))!.Name);
        Assert.Null(await clinic.Records.ShowPatientAsync("Q-1002", default));
    }

    public void Dispose() => clinic.Dispose();

    private async Task<long> VisitAsync(string patient, int right)
    {
        var exam = await clinic.OpenAsync(patient);
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth(right, right + 100);
        clinic.House.Add(clinic.Instrument.DirectBlock());
        await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3"));
        return exam;
    }
}
