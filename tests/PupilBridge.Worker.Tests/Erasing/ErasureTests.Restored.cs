using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Tests.Erasing;

/// <content>Erasures that a restored journal does not know of, and the list that tells it of them.</content>
public sealed partial class ErasureTests
{
    [Fact]
    public async Task A_folder_as_it_was_before_an_erasure_goes_through_it_once_however_often_that_is_cut_off()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var other = await OpenAsync(bench, "Q-1002", "Crane Driver Stays");
        await StopAsync(bench);
        var before = Kept(bench.DataFolder);
        bench.Open();
        await Eventually.Is(() => bench.Find(exam)?.SealedTexts.Count > 0);
        await EraseAsync(bench, exam);
        var later = await OpenAsync(bench, "Q-1003", "Came After");
        await EraseAsync(bench, later);
        await StopAsync(bench);
        var list = ReadShared(Path.Combine(bench.DataFolder, ErasureList.FileName));
        Assert.Equal(
            [exam.Value, later.Value],
            ErasureList.Read(list).SelectMany(one => one.Order.Exams).Select(e => e.Value)
        );

        PutBack(bench.DataFolder, before);
        var end = JournalVerifier.Verify(bench.Disk, new JournalFolder(bench.DataFolder)).Head.Sequence;
        Assert.Equal(2, RepeatedErasures.Prepare(bench.Disk, bench.DataFolder, end, [list, list]).Count);
        // The keys are gone before anything else is done, and without any master key.
        using (var keys = SubjectKeyStore.Open(bench.Disk, bench.DataFolder, null))
        {
            Assert.Empty(keys.Find(new PatientId(Number)));
        }

        var waiting = Path.Combine(bench.DataFolder, ErasureList.ToRepeatFileName);
        var order = File.ReadAllBytes(waiting);
        for (var times = 0; times < 3; times++)
        {
            File.WriteAllBytes(waiting, order);
            using var folder = OfflineFolder.Open(Parts(bench));
            var found = folder.Exams.Find(exam)!;
            Assert.Equal(("DPO", new PersonId("AD")), (found.Erasure!.OrderedBy, found.Erasure.Who));
            Assert.True(SealedNumbers.IsErased(found.Patient!.Value));
            Assert.Equal(OtherRemark, folder.Exams.Find(other)!.Notes[0].Text);
            Assert.False(File.Exists(waiting));
        }

        // Who came after the backup is not in this journal, and nothing is entered about them.
        Assert.Equal(
            [
                [exam.Value],
            ],
            Erasures(bench).Select(one => one.Exams.Select(e => e.Value).ToArray())
        );
        Assert.Equal([end + 1], ErasureList.Read(bench.Disk, bench.DataFolder).Select(one => one.Sequence));
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Fact]
    public async Task A_list_that_was_lost_or_cut_off_is_made_whole_at_the_next_start()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        foreach (var (number, name) in ((string, string)[])[(Number, Name), ("Q-1002-ERASEME", "Crane Eraseme")])
        {
            await EraseAsync(bench, await OpenAsync(bench, number, name));
        }

        await StopAsync(bench);
        var path = Path.Combine(bench.DataFolder, ErasureList.FileName);
        var whole = ErasureList.Read(bench.Disk, bench.DataFolder);
        Assert.Equal(2, whole.Count);
        var bytes = File.ReadAllBytes(path);
        foreach (var left in (int[])[-1, 0, 10, bytes.Length - 5])
        {
            File.Delete(path);
            if (left >= 0)
            {
                File.WriteAllBytes(path, bytes[..left]);
            }

            bench.Open();
            await StopAsync(bench);
            Assert.Equal(
                whole.Select(one => (one.Sequence, one.Order.Id)),
                ErasureList.Read(bench.Disk, bench.DataFolder).Select(one => (one.Sequence, one.Order.Id))
            );
        }
    }

    private static async Task StopAsync(BridgeBench bench)
    {
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
    }

    private static IEnumerable<PatientErased> Erasures(BridgeBench bench)
    {
        using var reader = JournalReader.Settled(bench.Disk, new JournalFolder(bench.DataFolder));
        return
        [
            .. reader
                .ReadAll()
                .Where(record => record.Class == RecordClass.Entry)
                .Select(record => EntryCodec.TryDecode(record.Payload.Span, out var entry, out _) ? entry : null)
                .OfType<PatientErased>(),
        ];
    }

    private static Dictionary<string, byte[]> Kept(string folder) =>
        new[] { "journal", SubjectKeyStore.FolderName }
            .SelectMany(name => Directory.EnumerateFiles(Path.Combine(folder, name)))
            .ToDictionary(path => path, ReadShared);

    private static void PutBack(string folder, Dictionary<string, byte[]> files)
    {
        foreach (var path in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories))
        {
            File.Delete(path);
        }

        foreach (var (path, bytes) in files)
        {
            File.WriteAllBytes(path, bytes);
        }
    }
}
