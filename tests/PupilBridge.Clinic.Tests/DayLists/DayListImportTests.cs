using System.Text;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Records;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.DayLists;

public sealed class DayListImportTests : IDisposable
{
    private static readonly DateOnly Day = new(2026, 3, 2);
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_list_is_taken_in_its_order_with_its_new_patients()
    {
        var import = await TakenAsync(
            """
            patient,name,birth date,time
            Q-1002,"Crane, B.",1975-01-02,9:30
            Q-1001,A. Pilot,1980-05-17,09:00

            Q-1003,,,
            """
        );

        Assert.Equal((3, 3, Day), (import.Patients, import.Fresh, import.Day));
        Assert.Equal("Patients for 2026-03-02: 3, new: 3.", import.Words);
        var list = await clinic.Records.DayListAsync(Day, default);
        Assert.Equal(
            [("Q-1002", "Crane, B.", "09:30"), ("Q-1001", "A. Pilot", "09:00"), ("Q-1003", null, null)],
            list.Items.Select(item => (item.Patient.Patient, item.Patient.Name, item.Time))
        );
        Assert.Equal(new DateOnly(1975, 1, 2), list.Items[0].Patient.BirthDate);
        var entered = Assert.Single(clinic.House.Journal.OfType<DayListEntered>());
        Assert.Equal(("list.csv", "MK"), (entered.SourceName, entered.Who.Value));
    }

    [Theory]
    [InlineData("patient;name;time\r\nQ-1001;Pilot, A.;09:00\r\n", "Pilot, A.")]
    [InlineData("\uFEFFpatient,time,name\nQ-1001,09:00,A. Pilot", "A. Pilot")]
    [InlineData("Time , Patient No. , FULL_NAME\n09:00 , Q-1001 , A. Pilot", "A. Pilot")]
    [InlineData("number;appointment;name\nQ-1001;09:00;\"A. \"\"Jo\"\" Pilot\"", "A. \"Jo\" Pilot")]
    [InlineData("patient,name,time\nQ-1001,\"=HYPERLINK(\"\"x\"\",A1)\",09:00", "=HYPERLINK(\"x\",A1)")]
    [InlineData("patient,name,time\nQ-1001,+49,09:00", "+49")]
    [InlineData("patient,name,time\nQ-1001,Jürgen Ålesund 李,09:00", "Jürgen Ålesund 李")]
    [InlineData("\"a;b\",patient,name,time\n\"x;y;z\",Q-1001,A. Pilot,09:00", "A. Pilot")]
    public async Task Files_of_many_kinds_say_the_same(string csv, string name)
    {
        await TakenAsync(csv);

        var item = Assert.Single((await clinic.Records.DayListAsync(Day, default)).Items);
        Assert.Equal(("Q-1001", name, "09:00"), (item.Patient.Patient, item.Patient.Name, item.Time));
    }

    [Fact]
    public async Task Columns_that_are_not_used_are_told()
    {
        var import = await TakenAsync("patient,phone,room\nQ-1001,123,4");

        Assert.EndsWith(" Columns not used: phone, room.", import.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_clinics_own_headings_are_recognised()
    {
        using var records = new RecordDesk(
            clinic.House,
            clinic.Time,
            new DayListHeadings([KeyValuePair.Create(DayListColumn.Patient, "Crew card")])
        );
        using var csv = new MemoryStream("crew-card,name\nQ-1001,A. Pilot"u8.ToArray());

        Assert.True((await records.ImportDayListAsync(csv, "list.csv", Day, By, default)).Done);
    }

    [Fact]
    public async Task The_same_file_twice_does_nothing()
    {
        const string csv = "patient,name,time\nQ-1001,A. Pilot,09:00\nQ-1002,B. Crane,09:30";
        await TakenAsync(csv);
        var length = clinic.House.Journal.Count;

        var again = await TakenAsync(csv);

        Assert.Equal(length, clinic.House.Journal.Count);
        Assert.Equal(0, again.Fresh);
        Assert.Contains("was taken before", again.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_later_list_replaces_the_earlier_one_which_can_be_given_once_more()
    {
        const string first = "patient,time\nQ-1001,09:00\nQ-1002,09:30";
        await TakenAsync(first);
        await TakenAsync("patient,time\nQ-1002,10:00");
        Assert.Equal(["10:00"], (await clinic.Records.DayListAsync(Day, default)).Items.Select(item => item.Time));

        await TakenAsync(first);

        Assert.Equal(
            ["09:00", "09:30"],
            (await clinic.Records.DayListAsync(Day, default)).Items.Select(item => item.Time)
        );
        Assert.Equal(3, clinic.House.Journal.OfType<DayListEntered>().Count());
    }

    [Fact]
    public async Task An_import_that_was_cut_off_goes_on_where_it_stopped()
    {
        const string csv = "patient,name\nQ-1001,A. Pilot\nQ-1002,B. Crane";
        var recorded = 0;
        clinic.House.JustBeforeRecording = () =>
        {
            if (++recorded == 2)
            {
                throw new OperationCanceledException();
            }
        };
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => ImportAsync(csv));
        Assert.Single(clinic.House.Journal.OfType<PatientEntered>());
        clinic.House.JustBeforeRecording = null;

        await TakenAsync(csv);

        Assert.Equal(["Q-1001", "Q-1002"], clinic.House.Journal.OfType<PatientEntered>().Select(p => p.Patient.Value));
        Assert.Single(clinic.House.Journal.OfType<DayListEntered>());
    }

    [Fact]
    public async Task What_a_file_adds_to_a_known_patient_is_entered_and_nothing_else()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", "A. Pilot"), clinic.Patient("Q-1002", "B. Crane"));

        var import = await TakenAsync("patient,name,birth date\nQ-1001,a. pilot,1980-05-17\nQ-1002,,");

        Assert.Equal(0, import.Fresh);
        Assert.Equal(3, clinic.House.Journal.OfType<PatientEntered>().Count());
        var patient = (await clinic.Records.ShowPatientAsync("Q-1001", default))!;
        Assert.Equal(("A. Pilot", new DateOnly(1980, 5, 17)), (patient.Name, patient.BirthDate));
    }

    [Fact]
    public async Task A_file_may_hold_several_days_and_a_patient_once_on_each()
    {
        var import = await TakenAsync("patient,day\nQ-1001,2026-03-03\nQ-1001,2026-03-04\nQ-1002,");

        Assert.Equal("Patients for 2026-03-02, 2026-03-03, 2026-03-04: 2, new: 2.", import.Words);
        Assert.Single((await clinic.Records.DayListAsync(Day.AddDays(2), default)).Items);
        Assert.Equal("Q-1002", Assert.Single((await clinic.Records.DayListAsync(Day, default)).Items).Patient.Patient);
    }

    [Fact]
    public async Task The_list_tells_what_became_of_each_patient()
    {
        await TakenAsync("patient\nQ-1001\nQ-1002\nQ-1003");
        var done = await clinic.ReadyExamAsync("Q-1001");
        var running = await clinic.OpenAsync("Q-1002");
        clinic.House.WriteLog();

        var items = (await clinic.Records.DayListAsync(Day, default)).Items;

        Assert.Equal([done, running, null], items.Select(item => item.Exam?.Exam));
        Assert.Equal(["ready-for-review", "open", null], items.Select(item => item.Exam?.Status));
        Assert.Empty((await clinic.Records.DayListAsync(Day.AddDays(1), default)).Items);
    }

    [Fact]
    public async Task The_day_is_the_clinics_own()
    {
        clinic.Time.SetLocalTimeZone(TimeZoneInfo.CreateCustomTimeZone("far", TimeSpan.FromHours(-10), "far", "far"));
        await TakenAsync("patient,day\nQ-1001,2026-03-01\nQ-1001,2026-03-02");
        // It opens at 8 in the morning of 2 March in UTC, which is 22 o'clock of the day before here.
        var exam = await clinic.OpenAsync("Q-1001");

        Assert.Equal(exam, (await clinic.Records.DayListAsync(Day.AddDays(-1), default)).Items[0].Exam?.Exam);
        Assert.Null((await clinic.Records.DayListAsync(Day, default)).Items[0].Exam);
    }

    [Fact]
    public async Task While_exams_are_made_anew_nothing_is_taken_and_nothing_is_a_fault()
    {
        clinic.House.ExamsWaitFor = "The exams are being made anew.";

        var import = await ImportAsync("patient\nQ-1001");

        Assert.False(import.Done);
        Assert.Empty(import.Faults);
        Assert.Contains("Give the file again in a moment", import.Words, StringComparison.Ordinal);
    }

    public void Dispose() => clinic.Dispose();

    private static Caller By => new("MK", ClinicRole.Examiner);

    private async Task<DayListImport> TakenAsync(string csv)
    {
        var import = await ImportAsync(csv);
        Assert.Empty(import.Faults);
        Assert.True(import.Done, import.Words);
        return import;
    }

    private async Task<DayListImport> ImportAsync(string csv)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(csv));
        return await clinic.Records.ImportDayListAsync(stream, "/home/desk/list.csv", Day, By, default);
    }
}
