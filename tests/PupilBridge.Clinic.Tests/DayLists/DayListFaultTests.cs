using System.Text;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.DayLists;

/// <summary>Each file here has something wrong: nothing of it may be taken, and the fault names the place and what to do.</summary>
public sealed class DayListFaultTests : IDisposable
{
    private static readonly DateOnly Day = new(2026, 3, 2);
    private readonly Support.Clinic clinic = new();

    [Theory]
    [InlineData("", "The file is empty. Give a file with")]
    [InlineData("\n\n  \n", "The file is empty.")]
    [InlineData("patient,name\n", "The file names no patient.")]
    [InlineData(
        "who,name\nQ-1001,A",
        "Line 1, column 'patient': No column is headed 'patient'; the headings are 'who', 'name'."
    )]
    [InlineData(
        "patient,number\nQ-1001,Q-1001",
        "Line 1, column 'patient': Two columns are taken for the same: 'patient' and 'number'."
    )]
    [InlineData("patient,name\n,A. Pilot", "Line 2, column 'patient': The patient's number is missing.")]
    [InlineData("patient,name\nQ-1001,A\n\n,B", "Line 4, column 'patient': The patient's number is missing.")]
    [InlineData(
        "patient,birth date\nQ-1001,17.05.1980",
        "Line 2, column 'birth date': '17.05.1980' is no date. Write it as year-month-day, such as 1980-05-17."
    )]
    [InlineData("patient,birth date\nQ-1001,1980-02-30", "Line 2, column 'birth date': '1980-02-30' is no date.")]
    [InlineData(
        "patient,birth date\nQ-1001,2027-01-01",
        "'2027-01-01' cannot be a date of birth: it lies after the day of the list. Check the year."
    )]
    [InlineData("patient,birth date\nQ-1001,1080-05-17", "it lies before 1900. Check the year.")]
    [InlineData(
        "patient,time\nQ-1001,25:00",
        "Line 2, column 'time': '25:00' is no time. Write it as hours:minutes, such as 09:30."
    )]
    [InlineData("patient,time\nQ-1001,9 am", "'9 am' is no time.")]
    [InlineData("patient,day\nQ-1001,03/02/2026", "Line 2, column 'day': '03/02/2026' is no date.")]
    [InlineData(
        "patient,name\nQ-1001,Pilot, A.",
        "Line 2: It has 3 fields, and the headings are 2. Put a text that holds a separator into quotation marks"
    )]
    [InlineData("patient,name\nQ-1001", "Line 2: It has 1 fields, and the headings are 2.")]
    [InlineData("patient,name\nQ-1001,\"A. \"Pilot", "Line 2: The quotation marks do not match.")]
    [InlineData("patient,name\nQ-1001,A\nQ-1002,\"B\nQ-1003,C", "Line 3: The quotation marks do not match.")]
    [InlineData(
        "patient,name\nQ-1001,A. Pilot\nQ-1002,B\nQ-1001,A. Pilot",
        "Line 4, column 'patient': Patient Q-1001 stands in line 2 already. Leave one of the lines out."
    )]
    [InlineData(
        "patient,name\nQ-1001,A. Pilot\nQ-1001,B. Crane",
        "Line 3, column 'patient': Number Q-1001 is 'B. Crane' here, and 'A. Pilot' in line 2. Entered twice?"
    )]
    [InlineData(
        "patient,born,day\nQ-1001,1980-05-17,2026-03-02\nQ-1001,1981-05-17,2026-03-03",
        "born 1981-05-17 here, and born 1980-05-17 in line 2. Entered twice?"
    )]
    public async Task A_fault_is_told_with_its_place_and_what_to_do(string csv, string fault)
    {
        var import = await ImportAsync(Encoding.UTF8.GetBytes(csv));

        Assert.False(import.Done);
        Assert.Contains(import.Faults, told => told.Contains(fault, StringComparison.Ordinal));
        Assert.Contains("Nothing of 'list.csv' was taken", import.Words, StringComparison.Ordinal);
        Assert.DoesNotContain(clinic.House.Journal, entry => entry is PersonEntry);
    }

    [Fact]
    public async Task All_faults_are_told_at_once_in_the_order_of_lines()
    {
        var import = await ImportAsync("patient,birth date,time\n,1980,9\nQ-1002,x,09:30"u8.ToArray());

        Assert.Equal(4, import.Faults.Count);
        Assert.Equal(
            [2, 2, 2, 3],
            import.Faults.Select(fault =>
                int.Parse(fault["Line ".Length..fault.IndexOf(',', StringComparison.Ordinal)], null)
            )
        );
    }

    [Fact]
    public async Task More_faults_than_anyone_reads_are_counted()
    {
        var lines = Enumerable.Range(0, 80).Select(n => $"Q-{1001 + n},never");

        var import = await ImportAsync(Encoding.UTF8.GetBytes("patient,time\n" + string.Join('\n', lines)));

        Assert.Equal(DayListLimits.MaxFaults + 1, import.Faults.Count);
        Assert.Equal("And 30 more.", import.Faults[^1]);
    }

    [Fact]
    public async Task A_file_in_another_encoding_is_refused_with_the_line()
    {
        var import = await ImportAsync([.. "patient,name\nQ-1001,A\nQ-1002,J"u8, 0xFC, .. "rgen\n"u8]);

        Assert.Contains(
            "Line 3: The file is no text in UTF-8.",
            Assert.Single(import.Faults),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Two_byte_text_is_refused()
    {
        var import = await ImportAsync(Encoding.Unicode.GetBytes("patient\nQ-1001\n"));

        Assert.Contains("encoding UTF-8", Assert.Single(import.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_too_large_is_not_read_to_its_end()
    {
        using var endless = new EndlessStream();

        var import = await clinic.Records.ImportDayListAsync(endless, "list.csv", Day, By, default);

        Assert.Contains("larger than 1000 kB", Assert.Single(import.Faults), StringComparison.Ordinal);
        Assert.InRange(endless.Given, DayListLimits.MaxBytes, 2 * DayListLimits.MaxBytes);
    }

    [Fact]
    public async Task A_day_with_too_many_patients_is_refused()
    {
        var lines = Enumerable.Range(0, DayListLimits.MaxPatients + 1).Select(n => $"Q-{1001 + n}");

        var import = await ImportAsync(Encoding.UTF8.GetBytes("patient\n" + string.Join('\n', lines)));

        Assert.Contains("has 501 patients; at most 500", Assert.Single(import.Faults), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "patient,name\nQ-1001,B. Crane",
        "known as 'A. Pilot', born 1980-05-17, and the file says 'B. Crane'. Entered twice?"
    )]
    [InlineData("patient,birth date\nQ-1001,1981-05-17", "and the file says born 1981-05-17. Entered twice?")]
    public async Task A_number_that_is_known_as_somebody_else_is_refused_with_both(string csv, string fault)
    {
        clinic.House.Add(Known());

        var import = await ImportAsync(Encoding.UTF8.GetBytes(csv));

        Assert.False(import.Done);
        Assert.Contains(fault, Assert.Single(import.Faults), StringComparison.Ordinal);
        Assert.StartsWith("Line 2, column 'patient': Patient Q-1001", import.Faults[0], StringComparison.Ordinal);
    }

    public void Dispose() => clinic.Dispose();

    private static Caller By => new("MK", ClinicRole.Examiner);

    private static PatientEntered Known() =>
        new()
        {
            Id = new EntryId(4711),
            Who = new PersonId("MK"),
            At = new UtcTime(0),
            ProgramVersion = "0.1.0",
            Patient = new PatientId("Q-1001"),
            Details = new PatientDetails { Name = "A. Pilot", BirthDate = new DateOnly(1980, 5, 17) },
        };

    private async Task<DayListImport> ImportAsync(byte[] csv)
    {
        using var stream = new MemoryStream(csv);
        return await clinic.Records.ImportDayListAsync(stream, "list.csv", Day, By, default);
    }

    private sealed class EndlessStream : Stream
    {
        public long Given { get; private set; }

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            Array.Fill(buffer, (byte)'x', offset, count);
            Given += count;
            return count;
        }

        public override void Flush() { }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
