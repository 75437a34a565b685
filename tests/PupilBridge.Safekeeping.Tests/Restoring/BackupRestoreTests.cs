using PupilBridge.Journal;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Tests.Support;

namespace PupilBridge.Safekeeping.Tests.Restoring;

/// <summary>Restoring, and every way in which a backup can be spoilt: each is refused by name, and nothing half is left under the name.</summary>
public sealed class BackupRestoreTests : IDisposable
{
    private readonly House house = new();

    public BackupRestoreTests()
    {
        house.Record(40);
        house.BackUp();
    }

    public void Dispose() => house.Dispose();

    [Fact]
    public void An_older_backup_is_its_own_point_in_time()
    {
        var before = (house.Head, House.Records(house.Folder));
        house.Record(40);
        house.BackUp();
        var restored = house.Restore(1);
        Assert.Equal(before.Head, restored.Report.Head);
        Assert.Equal(before.Item2, House.Records(new JournalFolder(house.Second)));
    }

    [Fact]
    public void A_journal_that_took_another_course_is_backed_up_beside_the_old_one()
    {
        house.Restore();
        house.Record(30);
        var old = house.BackUp();
        var second = new JournalFolder(house.Second);
        using (
            var writer = JournalWriter.Open(
                RealDisk.Instance,
                new JournalOptions { Folder = second, MaxSegmentBytes = 4096 }
            )
        )
        {
            for (var i = 0; i < 30; i++)
            {
                writer.Append("another course"u8);
                Assert.True(writer.Commit().IsDurable);
            }
        }

        var other = BackupMaker.Make(
            new BackupSource { Folder = second, Program = "test" },
            house.Place,
            House.Words(),
            CancellationToken.None
        );
        Assert.NotEqual(old.Catalogue.Head, other.Catalogue.Head);
        Assert.Contains(other.Catalogue.Segments, s => old.Catalogue.Segments.Any(o => o.Piece == s.Piece));
        Assert.Equal(old.Catalogue.Head, house.Check(2).Catalogue.Head);
        Assert.Equal(other.Catalogue.Head, house.Check(3).Catalogue.Head);
    }

    [Fact]
    public void A_missing_piece_is_named() => Each(File.Delete, "is missing");

    [Fact]
    public void A_piece_that_was_cut_is_named() =>
        Each(
            path =>
            {
                using var file = File.OpenWrite(path);
                file.SetLength(file.Length - 1);
            },
            "bytes instead of"
        );

    [Fact]
    public void A_piece_that_was_altered_is_named() =>
        Each(
            path =>
            {
                var bytes = File.ReadAllBytes(path);
                bytes[bytes.Length / 2] ^= 1;
                File.WriteAllBytes(path, bytes);
            },
            "was altered"
        );

    [Fact]
    public void Two_pieces_that_were_exchanged_are_named()
    {
        var paths = Directory.GetFiles(house.Place.Pieces).Order(StringComparer.Ordinal).ToArray();
        (var one, var other) = (File.ReadAllBytes(paths[1]), File.ReadAllBytes(paths[2]));
        File.WriteAllBytes(paths[1], other);
        File.WriteAllBytes(paths[2], one);
        Refused(BackupTrouble.Damaged, Path.GetFileName(paths[1]));
    }

    [Fact]
    public void A_wrong_pass_phrase_is_told_from_damage()
    {
        var refused = Assert.Throws<BackupException>(() => house.Restore(envelope: House.Words("not the pass phrase")));
        Assert.Equal(BackupTrouble.WrongKey, refused.Trouble);
        Assert.False(Directory.Exists(house.Second));
    }

    [Fact]
    public void A_folder_that_is_not_empty_is_refused_and_left_as_it_is()
    {
        Directory.CreateDirectory(house.Second);
        File.WriteAllText(Path.Combine(house.Second, "note"), "mine");
        Refused(BackupTrouble.Refused, house.Second);
        Assert.Equal("mine", File.ReadAllText(Path.Combine(house.Second, "note")));
        File.Delete(Path.Combine(house.Second, "note"));
        house.Restore();
    }

    [Fact]
    public void One_that_was_broken_off_has_not_the_name_and_does_not_hinder_the_next()
    {
        var path = Directory.GetFiles(house.Place.Pieces, "files-*").Single();
        var bytes = File.ReadAllBytes(path);
        File.Delete(path);
        Assert.Throws<BackupException>(() => house.Restore());
        Assert.False(Directory.Exists(house.Second));
        Assert.True(Directory.Exists(house.Second + ".restoring"));
        File.WriteAllBytes(path, bytes);
        house.Restore();
        Assert.False(Directory.Exists(house.Second + ".restoring"));
        Assert.False(File.Exists(house.Second + ".restoring.txt"));
    }

    [Fact]
    public void A_folder_beside_that_is_somebody_elses_is_not_touched()
    {
        Directory.CreateDirectory(house.Second + ".restoring");
        Refused(BackupTrouble.Refused, house.Second + ".restoring");
    }

    [Fact]
    public void A_catalogue_that_was_cut_or_altered_is_told()
    {
        var path = Directory.GetFiles(house.Place.Folder, "backup-*").Single();
        var text = File.ReadAllText(path);
        File.WriteAllText(path, text[..(text.Length / 2)]);
        Refused(BackupTrouble.Damaged, path);
        var last = text.LastIndexOf("\"chain\": \"", StringComparison.Ordinal) + 10;
        File.WriteAllText(path, text[..last] + (text[last] == 'a' ? 'b' : 'a') + text[(last + 1)..]);
        Refused(BackupTrouble.Damaged, "segment-");
    }

    private void Each(Action<string> spoil, string says)
    {
        foreach (var path in Directory.GetFiles(house.Place.Pieces))
        {
            var bytes = File.ReadAllBytes(path);
            spoil(path);
            var refused = Refused(BackupTrouble.Damaged, Path.GetFileName(path));
            Assert.Contains(says, refused.Message, StringComparison.Ordinal);
            Assert.Equal(BackupTrouble.Damaged, Assert.Throws<BackupException>(() => house.Check()).Trouble);
            File.WriteAllBytes(path, bytes);
        }

        house.Check();
    }

    private BackupException Refused(BackupTrouble trouble, string naming)
    {
        var refused = Assert.Throws<BackupException>(() => house.Restore());
        Assert.Equal(trouble, refused.Trouble);
        Assert.Contains(naming, refused.Message, StringComparison.Ordinal);
        Assert.NotEmpty(refused.Next);
        Assert.False(Directory.Exists(Path.Combine(house.Second, "journal")));
        return refused;
    }
}
