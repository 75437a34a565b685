using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Tests.Tables;

public class StreamingTests
{
    private static readonly DateTimeOffset From = new(2026, 3, 1, 0, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task Every_page_is_asked_for_once_with_the_span_and_all_exams_come_in_order()
    {
        var exams = Enumerable
            .Range(1, 7)
            .Select(n => Samples.Of("nothing").At("2026-03-02T09:00:00.000Z", n))
            .ToArray();
        var pages = new ListedExams(exams, pageSize: 3, withheld: 2);
        using var to = new MemoryStream();
        var count = await TableExport.WriteAsync(
            ClinicTables.Exams,
            pages,
            new TableSpan(From, From.AddDays(2)),
            TableFormat.Csv,
            to,
            default
        );
        Assert.Equal(new TableCount(9, 7, 2), count);
        Assert.Equal(["1", "2", "3", "4", "5", "6", "7"], PlainCsv.Rows(to.ToArray()).Select(row => row["exam"]));
        Assert.Equal([null, "3", "6"], pages.Searches.Select(search => search.After));
        Assert.All(
            pages.Searches,
            search => Assert.Equal((From, From.AddDays(2)), (search.OpenedFrom, search.OpenedBefore))
        );
    }

    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.JsonLines)]
    public async Task No_page_is_kept_once_its_rows_are_written(TableFormat format)
    {
        var pages = new FreshPages(200);
        await TableExport.WriteAsync(
            ClinicTables.Readings,
            pages,
            new TableSpan(null, null),
            format,
            Stream.Null,
            default
        );
        Assert.Equal(200, pages.Given);
        // The page at hand and a few before it, which stacks of tasks may still name; what counts is that it does not grow with the pages.
        Assert.InRange(pages.MostAlive, 0, 10);
    }

    /// <summary>Makes each page anew and looks from time to time how many of the earlier ones are still held.</summary>
    private sealed class FreshPages(int pages) : IOutgoingPages
    {
        private readonly OutgoingRecord exam = Samples.Of("nothing");
        private readonly List<WeakReference> given = [];

        public int Given => given.Count;

        public int MostAlive { get; private set; }

        public async Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken)
        {
            await Task.Yield();
            if (given.Count % 20 == 19)
            {
                GC.Collect();
                MostAlive = Math.Max(MostAlive, given.Count(one => one.IsAlive));
            }

            return Make();
        }

        private OutgoingPage Make()
        {
            var page = new OutgoingPage([exam with { }], 0, given.Count + 1 < pages ? $"{given.Count}" : null);
            given.Add(new WeakReference(page.Records[0]));
            return page;
        }
    }
}
