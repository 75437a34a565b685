using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Tests.Erasing;

/// <content>Cut-offs, older keys and missing ones: what a start makes of them.</content>
public sealed partial class ErasureTests
{
    [Theory]
    [InlineData("the order alone")]
    [InlineData("the keys, and the exam log not yet")]
    [InlineData("the order alone, and the power failed")]
    public async Task An_erasure_that_was_cut_off_is_carried_out_at_the_next_start(string done)
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var order = Order(bench, exam);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        var sequence = Append(bench, order);
        if (done.StartsWith("the keys", StringComparison.Ordinal))
        {
            using var keys = SubjectKeyStore.Open(bench.Disk, bench.DataFolder, null);
            keys.Destroy([.. order.Patients, .. order.Texts], sequence);
        }

        if (done.EndsWith("failed", StringComparison.Ordinal))
        {
            // The exam log cannot be opened, so nothing says whether it stood before the erasure (the simulator's seed 100).
            var mark = Path.Combine(bench.DataFolder, "examlog", "state");
            await File.WriteAllTextAsync(mark, "open under another run of the system\n");
        }
        else
        {
            var check = ProjectionCheck.Offline(Parts(bench), CancellationToken.None);
            Assert.False(check.IsSame);
            Assert.Contains("made anew", check.Trouble, StringComparison.Ordinal);
        }

        bench.Open();
        await Eventually.Is(() => bench.Find(exam)?.Erasure is not null);
        Assert.True(SealedNumbers.IsErased(bench.Find(exam)!.Patient!.Value));
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Fact]
    public async Task An_exam_log_that_a_death_left_aside_after_an_erasure_is_deleted_at_the_next_start()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        await EraseAsync(bench, await ExamineAsync(bench, Number, Name));
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        var aside = Directory.CreateDirectory(Path.Combine(bench.DataFolder, "examlog.aside-20260101T000000000Z"));
        await File.WriteAllTextAsync(Path.Combine(aside.FullName, "exams.db"), Name);

        bench.Open();
        Assert.False(Directory.Exists(aside.FullName));
        NowhereIn(bench.DataFolder);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Keys_out_of_an_older_backup_go_through_the_erasures_again(bool isOffline)
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var folder = Path.Combine(bench.DataFolder, SubjectKeyStore.FolderName);
        var backup = Directory.EnumerateFiles(folder).ToDictionary(path => path, ReadShared);
        await EraseAsync(bench, exam);
        // Whether a busy machine lets it stop in good order is asked elsewhere.
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();

        foreach (var (path, bytes) in backup)
            File.WriteAllBytes(path, bytes);
        if (isOffline)
        {
            OfflineFolder.Open(Parts(bench)).Dispose();
        }
        else
        {
            bench.Open();
            await Eventually.Is(() => bench.Find(exam)?.Erasure is not null);
            await bench.Bridge.StopAsync();
            await bench.Bridge.DisposeAsync();
        }

        using (var keys = SubjectKeyStore.Open(bench.Disk, bench.DataFolder, null))
            Assert.Empty(keys.Find(new PatientId(Number)));
        OfflineFolder.Rebuild(Parts(bench), "test", CancellationToken.None);
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Fact]
    public async Task Keys_that_are_missing_altogether_keep_the_service_from_starting_and_none_are_made_in_their_place()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        await ExamineAsync(bench, Number, Name);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        Directory.Delete(Path.Combine(bench.DataFolder, SubjectKeyStore.FolderName), recursive: true);
        var refused = Assert.Throws<BridgeStartException>(() => bench.Open());
        Assert.Contains("backup", refused.Message, StringComparison.Ordinal);
        Assert.False(SubjectKeyStore.Exists(bench.Disk, bench.DataFolder));
    }

    private static JournalSequence Append(BridgeBench bench, PatientErased order)
    {
        using var writer = JournalWriter.Open(
            bench.Disk,
            new JournalOptions
            {
                Folder = new JournalFolder(bench.DataFolder),
                Writer = "test",
                Time = TimeProvider.System,
            }
        );
        var sequence = writer.Append(Exams.Entries.Codec.EntryCodec.Encode(order));
        writer.Commit();
        return new JournalSequence(sequence);
    }
}
