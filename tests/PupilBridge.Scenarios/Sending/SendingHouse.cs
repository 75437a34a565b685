using System.Globalization;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;
using PupilBridge.Worker;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Scenarios.Sending;

/// <summary>A real bridge on a folder of its own, without instruments, in which exams are opened and signed by hand.</summary>
public sealed class SendingHouse : IAsyncDisposable
{
    private const string Version = "test";
    private static readonly PersonId Examiner = new("MK");
    private static readonly PersonId Clinician = new("DR");

    private readonly string folder;
    private readonly SealingChoice sealing;
    private Bridge bridge;

    /// <summary>Opens one.</summary>
    /// <param name="parent">Where its folder is made; null for the system's place for such things.</param>
    /// <param name="sealing">Whether what identifies patients is sealed, so that it can be erased.</param>
    public SendingHouse(string? parent = null, SealingChoice sealing = SealingChoice.WhenKeyed)
    {
        this.sealing = sealing;
        folder = Path.Combine(parent ?? Path.GetTempPath(), $"pupilbridge-outbox-{Guid.NewGuid():N}");
        bridge = Open();
    }

    /// <summary>The house.</summary>
    public BridgeHouse House => new(bridge, isLive: false);

    /// <summary>Its outbox.</summary>
    public HouseOutbox Outbox => new(House, TimeProvider.System);

    /// <summary>Opens an exam for a patient, makes it ready and signs it.</summary>
    /// <returns>The exam.</returns>
    public async Task<ExamId> SignAsync(string patient)
    {
        var exam = await OpenAsync(patient);
        await MakeReadyAsync(exam);
        await SignAgainAsync(exam);
        return exam;
    }

    /// <summary>Opens an exam for a patient.</summary>
    /// <returns>The exam.</returns>
    public async Task<ExamId> OpenAsync(string patient)
    {
        var opened = await House.RecordAsync(
            new ExamOpened
            {
                Id = NewId(),
                Who = Examiner,
                At = Now(),
                ProgramVersion = Version,
                Serial = new SerialNumber("QA-0001"),
                Patient = new PatientId(patient),
            },
            CancellationToken.None
        );
        await House.AppliedAsync(opened.Sequence, CancellationToken.None);
        return ExamId.OpenedBy(opened.Sequence);
    }

    /// <summary>Makes an exam ready for review.</summary>
    public Task MakeReadyAsync(ExamId exam) =>
        DoAsync(
            new ExamMadeReady
            {
                Id = NewId(),
                Who = Examiner,
                At = Now(),
                ProgramVersion = Version,
                Exam = exam,
            }
        );

    /// <summary>Enters who a patient is.</summary>
    public Task NameAsync(string patient, string name, DateOnly born) =>
        DoAsync(
            new PatientEntered
            {
                Id = NewId(),
                Who = Examiner,
                At = Now(),
                ProgramVersion = Version,
                Patient = new PatientId(patient),
                Details = new PatientDetails { Name = name, BirthDate = born },
            }
        );

    /// <summary>Amends a signed exam and signs it anew.</summary>
    public async Task AmendAsync(ExamId exam)
    {
        await DoAsync(
            new AmendmentBegun
            {
                Id = NewId(),
                Who = Clinician,
                At = Now(),
                ProgramVersion = Version,
                Exam = exam,
                Reason = "a word was wrong",
            }
        );
        await SignAgainAsync(exam);
    }

    /// <summary>Sets an exam aside.</summary>
    public Task SetAsideAsync(ExamId exam) =>
        DoAsync(
            new ExamSetAside
            {
                Id = NewId(),
                Who = Clinician,
                At = Now(),
                ProgramVersion = Version,
                Exam = exam,
                Reason = "wrong person",
            }
        );

    /// <summary>An administrator decides about a version.</summary>
    public Task DecideAsync(ExamId exam, int version, SendingDecision decision, string reason) =>
        DoAsync(
            new SendingDecided
            {
                Id = NewId(),
                Who = new PersonId("AD"),
                At = Now(),
                ProgramVersion = Version,
                Exam = exam,
                Version = version,
                Decision = decision,
                Reason = reason,
            }
        );

    /// <summary>How far a version is, by the journal.</summary>
    public OutboxItem Item(ExamId exam, int version = 1) =>
        OutboxDocuments.ItemsOf(Exam(exam)).Single(item => item.Version == version);

    /// <summary>How far a version is, by the journal.</summary>
    public OutboxState State(ExamId exam, int version = 1) => Item(exam, version).State;

    /// <summary>The exam as the journal has it.</summary>
    public Exam Exam(ExamId exam) => House.FindSitting(exam)!;

    /// <summary>The data folder, for a program of its own once this is stopped.</summary>
    public string DataFolder => Path.Combine(folder, "data");

    /// <summary>Stops the bridge and leaves the folder to another program.</summary>
    public ValueTask StopAsync() => bridge.DisposeAsync();

    /// <summary>Stops the bridge and starts another on the same folder.</summary>
    public async Task RestartAsync()
    {
        await bridge.DisposeAsync();
        bridge = Open();
    }

    /// <summary>Makes the exam log anew from the journal while the bridge runs.</summary>
    public Task RebuildAsync() => bridge.ExamLog.RebuildAsync("for a test", CancellationToken.None);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await bridge.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    private Bridge Open()
    {
        var options = new BridgeOptions
        {
            DataFolder = DataFolder,
            HostIdFile = Path.Combine(DataFolder, "host-id"),
            Sealing = sealing,
        };
        return Bridge.Open(
            new BridgeParts
            {
                Options = options,
                FindPorts = () => [],
                ProgramVersion = Version,
            }
        );
    }

    private async Task SignAgainAsync(ExamId id)
    {
        var exam = Exam(id);
        await DoAsync(
            new ExamSigned
            {
                Id = NewId(),
                Who = Clinician,
                At = Now(),
                ProgramVersion = Version,
                Exam = id,
                Version = exam.SignedVersions.Count + 1,
                Record = SignedRecordText.Write(SignedRecords.Of(exam, Version)),
                Reason = exam.Amendment?.Reason,
                MadeUpTo = exam.Entries[^1].Last,
            }
        );
        if (Exam(id).SignedVersions.Count != exam.SignedVersions.Count + 1)
        {
            throw new InvalidOperationException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Exam {id} was not signed: {Exam(id).Incidents[^1].Detail}"
                )
            );
        }
    }

    private async Task DoAsync(PersonEntry entry)
    {
        var receipt = await House.RecordAsync(entry, CancellationToken.None);
        await House.AppliedAsync(receipt.Sequence, CancellationToken.None);
    }

    private static EntryId NewId() => EntryId.From(Guid.NewGuid());

    private static UtcTime Now() => UtcTime.From(TimeProvider.System.GetUtcNow());
}
