using System.Text;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Records;
using PupilBridge.Scenarios.Sending;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Exchange.Tests.Erasing;

/// <summary>A real house that seals what identifies patients, with the desk at which people erase.</summary>
public sealed class ErasingHouse : IAsyncDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);
    private int drawn;

    public ErasingHouse(SealingChoice sealing = SealingChoice.Always) => Exams = new SendingHouse(null, sealing);

    /// <summary>Where exams are opened and signed.</summary>
    public SendingHouse Exams { get; }

    /// <summary>Reads records.</summary>
    public RecordDesk Records() => new(Exams.House, TimeProvider.System);

    /// <summary>The order to erase a patient.</summary>
    public ErasePatientEntry Order(string patient, string reason = "request 17") =>
        new()
        {
            EntryId = NewId(),
            Who = "AD",
            At = Now,
            ProgramVersion = "0.1.0",
            Patient = patient,
            OrderedBy = "DPO",
            Reason = reason,
        };

    /// <summary>The order to merge a number into another.</summary>
    public MergeEntry Merge(string merged, string kept) =>
        new()
        {
            EntryId = NewId(),
            Who = "DR",
            At = Now,
            ProgramVersion = "0.1.0",
            Kept = kept,
            Merged = merged,
            Reason = "entered twice",
        };

    public Task<EntryOutcome> EnterAsync(DeskEntry entry) =>
        new ClinicDesk(Exams.House).EnterAsync(entry, CancellationToken.None);

    /// <summary>Erases a patient, which must succeed; gives what the person is told.</summary>
    public async Task<string> ErasedAsync(string patient)
    {
        var outcome = await EnterAsync(Order(patient));
        return Assert.IsType<EntryOutcome.Recorded>(outcome).Notice!;
    }

    /// <summary>Enters something that must be refused; gives the words.</summary>
    public async Task<string> RefusedAsync(DeskEntry entry)
    {
        var refused = Assert.IsType<EntryOutcome.Refused>(await EnterAsync(entry));
        return $"{refused.Reason} {refused.NextStep}";
    }

    /// <summary>Makes sure that words stand in no file of the data folder.</summary>
    public void NowhereOnDisk(params string[] words)
    {
        foreach (var path in Directory.EnumerateFiles(Exams.DataFolder, "*", SearchOption.AllDirectories))
        {
            if (Path.GetFileName(path).StartsWith("lock", StringComparison.Ordinal))
            {
                continue;
            }

            using var file = new FileStream(
                path,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite | FileShare.Delete
            );
            using var all = new MemoryStream();
            file.CopyTo(all);
            var text = Encoding.Latin1.GetString(all.ToArray());
            Assert.All(
                words,
                word =>
                    Assert.False(text.Contains(word, StringComparison.OrdinalIgnoreCase), $"'{word}' stands in {path}")
            );
        }
    }

    public ValueTask DisposeAsync() => Exams.DisposeAsync();

    private string NewId() => (++drawn).ToString("x32", System.Globalization.CultureInfo.InvariantCulture);
}
