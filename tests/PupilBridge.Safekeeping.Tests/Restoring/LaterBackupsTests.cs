using System.Text;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Restoring;
using PupilBridge.Safekeeping.Tests.Support;

namespace PupilBridge.Safekeeping.Tests.Restoring;

/// <summary>What was ordered since is asked of later backups of the same journal, and of no other.</summary>
public sealed class LaterBackupsTests : IDisposable
{
    private const string Orders = "orders.txt";
    private readonly House house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public void The_latest_of_the_same_journal_is_asked_and_one_that_took_another_course_before_is_not()
    {
        house.Record(15);
        house.BackUp();
        house.Record(15);
        Order("first");
        house.BackUp();
        house.Record(15);
        Order("first, second");
        house.BackUp();
        Assert.Empty(Asked(3));
        Assert.Equal(["first, second"], Asked(2));
        Assert.Equal(["first, second"], Asked(1));

        // What is restored of the first one goes on by itself: it is a later one of the first, and none of the second.
        var second = new JournalFolder(house.Second);
        using (
            var writer = JournalWriter.Open(
                RealDisk.Instance,
                new JournalOptions { Folder = second, MaxSegmentBytes = 4096 }
            )
        )
        {
            writer.Append("another course"u8);
            Assert.True(writer.StopCleanly().IsDurable);
        }

        File.WriteAllText(Path.Combine(house.Second, Orders), "of the other course");
        BackupMaker.Make(
            new BackupSource { Folder = second, Program = "test" },
            house.Place,
            House.Words(),
            CancellationToken.None
        );
        Assert.Equal(["of the other course", "first, second"], Asked(1));
        Assert.Equal(["first, second"], Asked(2));
        Assert.Empty(Asked(4));
    }

    [Fact]
    public void One_that_cannot_be_read_is_named_and_the_one_before_it_is_asked()
    {
        house.Record(15);
        house.BackUp();
        foreach (var order in (string[])["first", "first, second"])
        {
            house.Record(1);
            Order(order);
            house.BackUp();
        }

        var latest = house.Place.Find(3);
        File.Delete(Path.Combine(house.Place.Pieces, latest.Files.File));
        var later = Restored(1).Later;
        Assert.Equal(["first"], Texts(later));
        Assert.Equal([3], later.Unread);
        Assert.Equal(house.Place.Find(2).MadeAt, later.KnownUpTo);
        File.WriteAllText(Path.Combine(house.Place.Folder, "backup-000003.json"), "{");
        Assert.Equal([3], Restored(1).Later.Unread);
    }

    private void Order(string text) => File.WriteAllText(house.At(Orders), text);

    /// <summary>What later backups say when one is restored; the last folder restored stays there.</summary>
    private string[] Asked(int number) => Texts(Restored(number).Later);

    private Restored Restored(int number)
    {
        if (Directory.Exists(house.Second))
        {
            Directory.Delete(house.Second, recursive: true);
        }

        return BackupRestore.Run(
            new RestoreWish
            {
                Place = house.Place,
                Number = number,
                Envelope = House.Words(),
                DataFolder = house.Second,
                OrderedSince = [Orders],
            },
            CancellationToken.None
        );
    }

    private static string[] Texts(LaterOrders later) =>
        [.. later.Files.Select(file => Encoding.UTF8.GetString(file.Span))];
}
