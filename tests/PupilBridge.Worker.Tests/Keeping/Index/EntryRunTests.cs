using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping.Index;

namespace PupilBridge.Worker.Tests.Keeping.Index;

public sealed class EntryRunTests : IDisposable
{
    private readonly TempFolder folder = new();
    private readonly RealDisk disk = new();

    public void Dispose() => folder.Dispose();

    private string PathOf(int number) => Path.Combine(folder.Path, $"{number}.ids");

    private static List<RecordedId> Draw(int count, int seed)
    {
        var dice = new Random(seed);
        var bytes = new byte[16];
        var ids = new List<RecordedId>();
        for (var i = 1; i <= count; i++)
        {
            dice.NextBytes(bytes);
            ids.Add(new RecordedId(EntryId.From(new Guid(bytes)), new JournalSequence(i)));
        }

        return ids;
    }

    private EntryRun Make(int number, IEnumerable<RecordedId> ids, int count)
    {
        EntryRunWriter.Write(disk, PathOf(number), count, ids);
        return EntryRun.Open(disk, PathOf(number), number, count);
    }

    /// <summary>One id, a page with and without a free place, and so many that not every page has a fence (more than 174,080).</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(170)]
    [InlineData(171)]
    [InlineData(5_000)]
    [InlineData(400_000)]
    public void Every_id_is_found_at_its_place_and_no_other(int count)
    {
        var ids = Draw(count, seed: count);
        using var run = Make(1, ids.Order(), count);
        var step = Math.Max(1, count / 5_000);
        for (var i = 0; i < count; i += step)
        {
            Assert.True(run.TryFind(ids[i].Id, out var place));
            Assert.Equal(ids[i].Place, place);
        }

        foreach (
            var stranger in Draw(1_000, seed: 77)
                .Append(new(default, default))
                .Append(new(new(UInt128.MaxValue), default))
        )
        {
            Assert.True(run.TryFind(stranger.Id, out var none));
            Assert.Null(none);
        }

        Assert.Equal(ids.Order(), run.All());
    }

    [Fact]
    public void Runs_are_made_one_in_order()
    {
        var all = Draw(3_000, seed: 3);
        using var first = Make(1, all.Take(1_000).Order(), 1_000);
        using var second = Make(2, all.Skip(1_000).Order(), 2_000);
        using var both = Make(3, EntryRunWriter.Merged([first, second]), 3_000);
        Assert.Equal(all.Order(), both.All());
    }

    [Fact]
    public void A_run_that_was_replaced_says_so_instead_of_answering()
    {
        var ids = Draw(10, seed: 1);
        var run = Make(1, ids.Order(), 10);
        run.Dispose();
        Assert.False(run.TryFind(ids[0].Id, out _));
    }

    /// <summary>Each flipped bit is told: at the opening, or by whoever reads its page. None makes an id be missed.</summary>
    [Fact]
    public void A_flipped_bit_is_never_taken_for_an_answer()
    {
        var ids = Draw(2_000, seed: 9);
        Make(1, ids.Order(), ids.Count).Dispose();
        var whole = File.ReadAllBytes(PathOf(1));
        var dice = new Random(4);
        var told = 0;
        for (var round = 0; round < 60; round++)
        {
            var bytes = (byte[])whole.Clone();
            bytes[dice.Next(bytes.Length)] ^= (byte)(1 << dice.Next(8));
            File.WriteAllBytes(PathOf(2), bytes);
            try
            {
                using var run = EntryRun.Open(disk, PathOf(2), 2, ids.Count);
                foreach (var id in ids)
                {
                    Assert.True(run.TryFind(id.Id, out var place));
                    Assert.Equal(id.Place, place);
                }
            }
            catch (IndexDamagedException)
            {
                told++;
            }
        }

        Assert.Equal(60, told);
    }
}
