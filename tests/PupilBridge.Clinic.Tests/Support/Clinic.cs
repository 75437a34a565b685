using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Records;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>A desk with one instrument that was met, and short ways to enter things.</summary>
internal sealed class Clinic : IDisposable
{
    public const string Serial = "QA-0001";
    private int drawn;

    public Clinic(int backlog = 64, InstrumentAbilities abilities = InstrumentAbilities.MarkKeys)
    {
        House = new TestHouse(backlog);
        Desk = new ClinicDesk(House);
        Records = new RecordDesk(House, Time);
        Instrument = new ScriptedInstrument(Serial, new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), abilities);
        House.Add(Instrument.Met());
        House.Add(Instrument.Dial(InstrumentMode.Idle));
    }

    public TestHouse House { get; }

    public ClinicDesk Desk { get; }

    public RecordDesk Records { get; }

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));

    public ScriptedInstrument Instrument { get; }

    public string NewId() => (++drawn).ToString("x32", CultureInfo.InvariantCulture);

    public Task<EntryOutcome> EnterAsync(DeskEntry entry) => Desk.EnterAsync(entry, CancellationToken.None);

    public OpenExamEntry Opening(string? patient = "Q-1001", string serial = Serial) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Instrument = serial,
            Patient = patient,
        };

    public async Task<long> OpenAsync(string? patient = "Q-1001") =>
        Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(Opening(patient))).Exam!.Value;

    public JudgementEntry Judging(long exam, string judgement) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Judgement = judgement,
        };

    public RoomLightEntry Light(long exam, string light) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Light = light,
        };

    public Exam Exam(long exam) => House.FindExam(new ExamId(exam))!;

    /// <summary>Measures both pupils in the light that was said.</summary>
    public void MeasureBoth(int right = 4_000, int left = 4_100)
    {
        House.Add(Instrument.Dial(InstrumentMode.Measure));
        House.Add(Instrument.Mark(Eye.Right, right));
        House.Add(Instrument.Mark(Eye.Left, left));
    }

    public void Dispose()
    {
        Records.Dispose();
        House.Dispose();
    }
}
