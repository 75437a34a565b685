using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Queries;

public sealed class OutboxListTests
{
    [Fact]
    public void Each_list_is_read_by_pages_in_the_order_of_signatures_and_an_item_stands_in_one_list_only()
    {
        using var folder = new DataFolder();
        using var store = ExamLogStore.Open(folder.Path);
        store.Apply(1, new ExamLogChanges { Outbox = [.. Enumerable.Range(0, 25).Select(n => Item(24 - n, 1))] });
        store.Apply(2, new ExamLogChanges { Outbox = [Item(3, 3), Item(4, 2)] });

        var all = new List<StoredOutboxItem>();
        string? after = null;
        do
        {
            var page = store.ListOutbox(OutboxList.Open, after, 7);
            Assert.InRange(page.Items.Count, 1, 7);
            all.AddRange(page.Items);
            after = page.Next;
        } while (after is not null);

        Assert.Equal(
            Enumerable.Range(0, 25).Where(n => n is not (3 or 4)).Select(n => $"{n}-1"),
            all.Select(item => item.Id)
        );
        Assert.Equal("4-1", Assert.Single(store.ListOutbox(OutboxList.Stopped).Items).Id);
        Assert.Equal("3-1", Assert.Single(store.ListOutbox(OutboxList.Settled).Items).Id);
        Assert.Throws<ArgumentException>(() => store.ListOutbox(OutboxList.Open, "nowhere"));
        store.Verify();
    }

    private static StoredOutboxItem Item(int number, int list) =>
        Samples.OutboxItem(number, 0) with
        {
            List = (OutboxList)list,
        };
}
