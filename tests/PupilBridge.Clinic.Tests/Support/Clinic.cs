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
internal sealed partial class Clinic : IDisposable
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

    public async Task<long> OpenAsync(string? patient = "Q-1001") =>
        (await RecordedAsync(Opening(patient))).Exam!.Value;

    /// <summary>A complete exam, not made ready yet: both lights, shapes, direct responses and both dwells.</summary>
    public async Task<long> ExamineAsync(
        string? patient = "Q-1001",
        int right = 4_000,
        int left = 4_100,
        string directOd = "3",
        string swing = "alike"
    )
    {
        var exam = await OpenAsync(patient);
        House.Add(Instrument.Dial(InstrumentMode.Measure));
        foreach (var light in new[] { "bright", "dim" })
        {
            await CountsAsync(Light(exam, light));
            House.Add(Instrument.Mark(Eye.Right, right));
            House.Add(Instrument.Mark(Eye.Left, left));
        }

        await CountsAsync(Judging(exam, "shape OD round"), Judging(exam, "shape OS round"));
        House.Add(Instrument.DirectBlock());
        await CountsAsync(Judging(exam, $"direct OD {directOd}"), Judging(exam, "direct OS 3"));
        House.Add(Instrument.SwingBlock(Block.SwingShort, 1000));
        await CountsAsync(Judging(exam, $"swing short {swing}"));
        House.Add(Instrument.SwingBlock(Block.SwingLong, 3000));
        await CountsAsync(Judging(exam, $"swing long {swing}"));
        return exam;
    }

    /// <summary>The same, made ready for review.</summary>
    public async Task<long> ReadyExamAsync(string? patient = "Q-1001", int right = 4_000, int left = 4_100)
    {
        var exam = await ExamineAsync(patient, right, left);
        await CountsAsync(Ready(exam));
        return exam;
    }

    /// <summary>The same, signed.</summary>
    public async Task<long> SignedExamAsync()
    {
        var exam = await ReadyExamAsync();
        await CountsAsync(Signature(exam, (await RecordAsync(exam)).DraftDigest));
        return exam;
    }

    /// <summary>Enters things that must count.</summary>
    public async Task CountsAsync(params DeskEntry[] entries)
    {
        foreach (var entry in entries)
        {
            await RecordedAsync(entry);
        }
    }

    /// <summary>Enters something that must count.</summary>
    public async Task<EntryOutcome.Recorded> RecordedAsync(DeskEntry entry) =>
        Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(entry));

    public async Task<Views.RecordView> RecordAsync(long exam) => (await Records.ShowRecordAsync(exam, default))!;

    public Exam Exam(long exam) => House.FindSitting(new ExamId(exam))!;

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
