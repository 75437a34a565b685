using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Tests.Support;

namespace PupilBridge.Safekeeping.Tests.Backups;

/// <summary>A destination that runs full at any byte: it says that it holds no whole backup more than before, and goes on once there is room.</summary>
public sealed class FullDestinationTests : IDisposable
{
    private readonly House house = new();

    public void Dispose() => house.Dispose();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Nothing_half_made_is_taken_for_a_backup_and_the_next_run_completes_it(bool hasWhole)
    {
        house.Record(20);
        var first = hasWhole ? house.BackUp() : null;
        house.Record(40);
        var failures = 0;
        BackupMade? made = null;
        for (long room = 100; made is null; room += 900)
        {
            try
            {
                made = house.BackUp(new FullDiskEnvelope(room));
            }
            catch (BackupException full)
            {
                failures++;
                Assert.Equal(BackupTrouble.Storage, full.Trouble);
                Assert.Contains("No space left", full.Message, StringComparison.Ordinal);
                Assert.Equal(hasWhole ? [1] : [], house.Place.Numbers);
                NoneOrTheFirst(first);
            }
        }

        Assert.True(failures > 3, "it was hardly ever full");
        Assert.True(made.WentOn);
        Assert.Equal(house.Head, house.Check().Catalogue.Head);
        Assert.Null(UnfinishedBackup.At(house.Place));
        Assert.Equal(house.Head, house.Restore().Report.Head);
    }

    private void NoneOrTheFirst(BackupMade? first)
    {
        if (first is not null)
        {
            Assert.Equal(first.Catalogue.Head, house.Check().Catalogue.Head);
            return;
        }

        var missing = Assert.Throws<BackupException>(() => house.Restore());
        Assert.Equal(BackupTrouble.Missing, missing.Trouble);
        Assert.Contains("only an unfinished one", missing.Message, StringComparison.Ordinal);
        Assert.NotNull(UnfinishedBackup.At(house.Place));
        Assert.False(Directory.Exists(house.Second));
    }
}
