using PupilBridge.Journal;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Tests.Support;

namespace PupilBridge.Safekeeping.Tests.Backups;

/// <summary>Backups beside a journal that is being written.</summary>
public sealed class BackupMakerTests : IDisposable
{
    private readonly House house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public void Only_new_segments_and_the_open_one_are_written_again()
    {
        house.Record(50);
        var first = house.BackUp();
        Assert.True(first.Catalogue.Segments.Count > 3);
        Assert.Equal(first.Catalogue.Pieces.Count(), first.NewPieces);
        Assert.Equal(house.Head, first.Catalogue.Head);
        Assert.True(first.WasOpened);

        var again = house.BackUp();
        Assert.Equal((0, 2), (again.NewPieces, again.Catalogue.Number));

        house.Record(1);
        var next = house.BackUp();
        Assert.Equal(1, next.NewPieces);
        Assert.Equal(house.Head, next.Catalogue.Head);
        house.Record(50);
        var later = house.BackUp();
        Assert.InRange(later.NewPieces, 3, later.Catalogue.Segments.Count - first.Catalogue.Segments.Count + 1);
        foreach (var number in house.Place.Numbers)
        {
            Assert.True(house.Check(number).WasOpened);
        }
    }

    [Fact]
    public void Everything_that_matters_is_in_it_and_what_is_made_anew_is_not()
    {
        house.Record(3);
        house.BackUp();
        var restored = house.Restore();
        Assert.Equal(["access.json", "host-id", "keys/master.txt", "research.key"], restored.Files);
        Assert.Equal(House.Records(house.Folder), House.Records(new JournalFolder(house.Second)));
        Assert.Equal(house.Head, restored.Report.Head);
        Assert.False(Directory.Exists(Path.Combine(house.Second, "examlog")));
        Assert.Equal("0000002a\n", File.ReadAllText(Path.Combine(house.Second, "host-id")));
    }

    [Fact]
    public void A_backup_that_is_not_encrypted_holds_no_keys_and_says_so()
    {
        house.Record(3);
        var made = house.BackUp(new PlainEnvelope());
        Assert.Contains(made.Catalogue.LeftOut, what => what.StartsWith("keys ", StringComparison.Ordinal));
        Assert.Contains(made.Catalogue.LeftOut, what => what.StartsWith("research.key ", StringComparison.Ordinal));
        Assert.Equal(["access.json", "host-id"], house.Restore(envelope: new PlainEnvelope()).Files);
    }

    [Fact]
    public void Nothing_of_what_was_recorded_can_be_read_in_an_encrypted_backup()
    {
        house.Record(30);
        house.BackUp();
        foreach (var path in Directory.EnumerateFiles(house.Place.Folder, "*", SearchOption.AllDirectories))
        {
            var bytes = File.ReadAllBytes(path);
            Assert.True(bytes.AsSpan().IndexOf("entry"u8) < 0, path);
            Assert.True(bytes.AsSpan().IndexOf("secret"u8) < 0, path);
        }
    }

    /// <summary>Stopped at any piece: the earlier backup stays whole, and the next one goes on and writes nothing twice.</summary>
    [Fact]
    public void One_that_is_broken_off_leaves_the_former_whole_and_the_next_goes_on()
    {
        house.Record(20);
        var whole = house.BackUp();
        house.Record(60);
        var written = 0;
        for (var tries = 0; ; tries++)
        {
            Assert.InRange(tries, 0, 100);
            using var stop = new CancellationTokenSource();
            try
            {
                var made = house.BackUp(new BreakingEnvelope(afterPieces: 1, stop), stop.Token);
                Assert.True(tries > 3, "it was never broken off");
                Assert.True(made.WentOn);
                break;
            }
            catch (OperationCanceledException)
            {
                Assert.Equal([1], house.Place.Numbers);
                Assert.Equal(whole.Catalogue.Head, house.Check().Catalogue.Head);
                var pieces = Directory.GetFiles(house.Place.Pieces).Length;
                Assert.True(pieces >= written, "it began anew");
                written = pieces;
            }
        }

        Assert.Equal(house.Head, house.Check().Catalogue.Head);
        Assert.Empty(Directory.GetFiles(house.Place.Folder, "*.part", SearchOption.AllDirectories));
    }

    [Fact]
    public void A_journal_that_does_not_lead_to_the_running_head_gives_no_backup()
    {
        house.Record(5);
        var other = house.Head with { Hash = new ChainHash(1, 2, 3, 4) };
        var source = new BackupSource
        {
            Folder = house.Folder,
            RunningHead = other,
            Program = "test",
        };
        var refused = Assert.Throws<BackupException>(() =>
            BackupMaker.Make(source, house.Place, House.Words(), CancellationToken.None)
        );
        Assert.Equal(BackupTrouble.Damaged, refused.Trouble);
        Assert.Empty(house.Place.Numbers);
    }

    [Fact]
    public void A_damaged_segment_lies_in_it_as_it_is_and_is_named()
    {
        house.Record(50);
        var path = Directory.GetFiles(house.Folder.Segments).Order(StringComparer.Ordinal).ElementAt(1);
        var bytes = File.ReadAllBytes(path);
        bytes[700] ^= 1;
        File.WriteAllBytes(path, bytes);
        var made = house.BackUp();
        Assert.NotNull(Assert.Single(made.Catalogue.Segments, segment => segment.Damage is not null).Damage);
        var restored = house.Restore();
        Assert.False(restored.Report.IsSound);
        Assert.Equal(bytes, File.ReadAllBytes(Path.Combine(house.Second, "journal", Path.GetFileName(path))));
    }

    [Fact]
    public void Another_pass_phrase_for_the_same_folder_is_refused_and_changes_nothing()
    {
        house.Record(5);
        house.BackUp();
        house.Record(5);
        var refused = Assert.Throws<BackupException>(() => house.BackUp(House.Words("another pass phrase")));
        Assert.Equal(BackupTrouble.WrongKey, refused.Trouble);
        var other = Assert.Throws<BackupException>(() => house.BackUp(new PlainEnvelope()));
        Assert.Equal(BackupTrouble.Refused, other.Trouble);
        Assert.Equal([1], house.Place.Numbers);
        Assert.Equal(2, house.BackUp().Catalogue.Number);
    }

    [Fact]
    public void Two_at_once_to_one_folder_are_refused()
    {
        house.Record(1);
        house.BackUp();
        using var busy = PlaceLock.Take(house.Place);
        Assert.Equal(BackupTrouble.InUse, Assert.Throws<BackupException>(() => house.BackUp()).Trouble);
    }

    [Fact]
    public void Old_ones_are_deleted_only_when_told_and_those_that_stay_are_whole()
    {
        for (var day = 0; day < 5; day++)
        {
            house.Record(15);
            house.BackUp();
        }

        Assert.Equal(5, house.Place.Numbers.Count);
        var before = Directory.GetFiles(house.Place.Pieces).Length;
        Assert.Equal([1, 2, 3], BackupRetention.Keep(house.Place, 2));
        Assert.Equal([4, 5], house.Place.Numbers);
        Assert.True(Directory.GetFiles(house.Place.Pieces).Length < before);
        house.Check(4);
        house.Check(5);
        Assert.Empty(BackupRetention.Keep(house.Place, 2));
    }
}
