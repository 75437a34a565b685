using System.Net;
using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Threading.Channels;
using Microsoft.Extensions.Time.Testing;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.LaneApi;

public sealed class LaneEventsTests : IAsyncDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);
    private readonly FakeTimeProvider time = new(DateTimeOffset.UnixEpoch);
    private readonly Channel<LaneBoard> boards = Channel.CreateUnbounded<LaneBoard>();
    private readonly TaskCompletionSource watchEnded = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly CancellationTokenSource end = new(Deadline);
    private readonly ApiInProcess api;

    public LaneEventsTests()
    {
        api = new ApiInProcess(time).As("MK", "examiner");
        api.Lanes.Setup(desk => desk.WatchLaneAsync("QA-0001", It.IsAny<CancellationToken>()))
            .Returns(() => BoardsAsync(CancellationToken.None));
    }

    [Fact]
    public async Task A_sign_of_life_comes_at_once_then_each_board_whole_with_a_number_that_grows()
    {
        var (answer, all) = await api.WatchAsync("QA-0001", end.Token);
        await using var events = all.GetAsyncEnumerator(end.Token);
        Assert.Equal("beat", (await NextAsync(events)).EventType);

        foreach (var position in new[] { 1, 2 })
        {
            boards.Writer.TryWrite(SomeBoards.At(position));
            var item = await NextAsync(events);
            Assert.Equal(("board", $"{position}"), (item.EventType, item.EventId));
            var board = JsonSerializer.Deserialize(item.Data, ClinicJson.Default.LaneBoard)!;
            Assert.Equal(position, board.Right.PositionMicrometres);
        }

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("text/event-stream", answer.Content.Headers.ContentType?.MediaType);
        Assert.True(answer.Headers.CacheControl?.NoStore);
    }

    [Fact]
    public async Task Where_nothing_happens_a_sign_of_life_comes_every_ten_seconds()
    {
        var (_, all) = await api.WatchAsync("QA-0001", end.Token);
        await using var events = all.GetAsyncEnumerator(end.Token);
        await NextAsync(events);

        for (var beat = 0; beat < 3; beat++)
        {
            var waiting = events.MoveNextAsync().AsTask();
            while (!waiting.IsCompleted)
            {
                // The server may not have begun to wait yet.
                time.Advance(TimeSpan.FromSeconds(10));
                await Task.WhenAny(waiting, Task.Delay(20));
            }

            Assert.True(await waiting.WaitAsync(Deadline));
            Assert.Equal("beat", events.Current.EventType);
        }
    }

    [Fact]
    public async Task A_page_that_goes_ends_the_watch()
    {
        using var page = CancellationTokenSource.CreateLinkedTokenSource(end.Token);
        var (answer, all) = await api.WatchAsync("QA-0001", page.Token);
        await using (var events = all.GetAsyncEnumerator(page.Token))
        {
            await NextAsync(events);
        }

        answer.Dispose();
        await page.CancelAsync();

        await watchEnded.Task.WaitAsync(Deadline);
    }

    [Fact]
    public async Task When_the_service_stops_the_stream_ends_at_once_and_the_stop_does_not_wait_for_pages()
    {
        var (_, all) = await api.WatchAsync("QA-0001", end.Token);
        await using var events = all.GetAsyncEnumerator(end.Token);
        await NextAsync(events);

        await api.StopAsync().WaitAsync(Deadline);

        await watchEnded.Task.WaitAsync(Deadline);
        Assert.False(await events.MoveNextAsync().AsTask().WaitAsync(Deadline));
    }

    [Fact]
    public async Task A_serial_number_that_can_be_none_and_a_role_that_sees_no_lane_are_told_in_words()
    {
        api.Lanes.Setup(desk => desk.WatchLaneAsync("x y", It.IsAny<CancellationToken>()))
            .Throws(new EntryProblemException("'x y' is no serial number."));

        using var none = await api.Browser.GetAsync("/api/v1/lanes/x%20y/events");
        using var role = await api.As("TT", "technician").Browser.GetAsync("/api/v1/lanes/QA-0001/events");

        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, role.StatusCode);
    }

    public async ValueTask DisposeAsync()
    {
        await end.CancelAsync();
        await api.DisposeAsync();
        end.Dispose();
    }

    private async IAsyncEnumerable<LaneBoard> BoardsAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        try
        {
            await foreach (var board in boards.Reader.ReadAllAsync(cancellation))
            {
                yield return board;
            }
        }
        finally
        {
            watchEnded.TrySetResult();
        }
    }

    private static async Task<SseItem<string>> NextAsync(IAsyncEnumerator<SseItem<string>> events)
    {
        Assert.True(await events.MoveNextAsync().AsTask().WaitAsync(Deadline));
        return events.Current;
    }
}
