using System.Net.ServerSentEvents;
using System.Text.Json;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Console.Tests.LaneApi;

/// <summary>From the instrument's line to the events that a page gets, and back from a page into the journal.</summary>
public sealed class LaneOverBridgeTests : IAsyncDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);
    private readonly CancellationTokenSource end = new(Deadline);
    private readonly BridgedLane lane = new(InstrumentModels.QuayB);

    [Fact]
    public async Task A_page_follows_the_instrument_by_itself_and_what_it_sends_is_recorded()
    {
        await using var boards = await BoardsAsync();
        await UntilAsync(boards, board => board.Line == "connected");
        await EnterAsync("""{"entry":"openExam",ENTRY,"instrument":"QB-0701","patient":"Q-1001"}""");
        var opened = await UntilAsync(boards, board => board.Exam is not null);
        Assert.Equal("Q-1001", opened.Exam!.Patient!.Patient);

        lane.Instrument.With(instrument =>
        {
            instrument.TurnDialTo(instrument.Model.Stops.Single(stop => stop.Mode == InstrumentMode.Measure));
            return true;
        });
        await UntilAsync(boards, board => board.Mode == "measure");

        // Home is at 16 mm and positions grow towards the nose: 4 mm towards the temple are a pupil of 4 mm.
        Slide(12_000);
        var sliding = await UntilAsync(
            boards,
            board => board.Right is { IsMoving: true, LiveMillimetres: > 1 and < 4 }
        );
        Assert.Empty(sliding.Exam!.Sizes);
        var resting = await UntilAsync(
            boards,
            board => board.Right is { IsMoving: false, PositionMicrometres: 12_000 }
        );
        Assert.Equal(4.0, resting.Right.LiveMillimetres);
        Slide(16_000);
        var measured = await UntilAsync(boards, board => board.Exam?.Sizes.Count == 1);
        Assert.Equal(("OD", 4.0), (measured.Exam!.Sizes[0].Eye, Math.Round(measured.Exam.Sizes[0].Millimetres, 3)));
    }

    [Fact]
    public async Task After_a_restart_of_the_service_the_page_gets_the_same_exam_and_prompt()
    {
        LaneBoard before;
        await using (var boards = await BoardsAsync())
        {
            await UntilAsync(boards, board => board.Line == "connected");
            await EnterAsync("""{"entry":"openExam",ENTRY,"instrument":"QB-0701","patient":"Q-1001"}""");
            lane.Instrument.With(instrument =>
            {
                instrument.TurnDialTo(instrument.Model.Stops.Single(stop => stop.Mode == InstrumentMode.Measure));
                instrument.SetRoom(2);
                return true;
            });
            before = await UntilAsync(
                boards,
                board =>
                    board is { Exam.Prompt.Words: "Make the room bright", Mode: "measure", ReceivedEvents: > 0 }
                    && board.ReceivedEvents == board.RecordedEvents
            );
        }

        await lane.RestartAsync();
        await using var after = await BoardsAsync();
        var first = await UntilAsync(after, _ => true);
        var connected = first.Line == "connected" ? first : await UntilAsync(after, board => board.Line == "connected");

        foreach (var board in new[] { first, connected })
        {
            Assert.Equal((before.Exam!.Exam, before.Exam.Prompt), (board.Exam!.Exam, board.Exam.Prompt));
            Assert.Equal(("dim", "measure"), (board.Room.Light, board.Mode));
        }
    }

    [Fact]
    public async Task The_next_patient_begun_without_closing_the_last_leaves_the_last_on_the_board()
    {
        await using var boards = await BoardsAsync();
        await UntilAsync(boards, board => board.Line == "connected");
        await EnterAsync("""{"entry":"openExam",ENTRY,"instrument":"QB-0701","patient":"Q-1001"}""");
        var first = await UntilAsync(boards, board => board.Exam is not null);

        await EnterAsync("""{"entry":"openExam",ENTRY,"instrument":"QB-0701","patient":"Q-1002"}""");

        var second = await UntilAsync(boards, board => board.Exam?.Patient?.Patient == "Q-1002");
        Assert.Equal((first.Exam!.Exam, "Q-1001"), (second.Before!.Exam, second.Before.Patient));
        Assert.Contains("begun before it was closed", second.Before.Words, StringComparison.Ordinal);
    }

    public async ValueTask DisposeAsync()
    {
        await end.CancelAsync();
        await lane.DisposeAsync();
        end.Dispose();
    }

    private void Slide(double micrometres) =>
        lane.Instrument.With(instrument =>
        {
            instrument.SlideTo(Eye.Right, micrometres, 4_000);
            return true;
        });

    private async Task EnterAsync(string json)
    {
        await lane.Api.WithTokenAsync();
        var at = TimeProvider.System.GetUtcNow().ToString("o");
        var stamp = $"\"entryId\":\"{Guid.NewGuid():n}\",\"who\":\"MK\",\"at\":\"{at}\",\"programVersion\":\"0.1.0\"";
        using var answer = await lane.Api.PostAsync(
            "/api/v1/entries",
            json.Replace("ENTRY", stamp, StringComparison.Ordinal)
        );
        var outcome = await answer.Content.ReadAsStringAsync();
        Assert.Contains("\"recorded\"", outcome, StringComparison.Ordinal);
    }

    private async Task<IAsyncEnumerator<SseItem<string>>> BoardsAsync()
    {
        var (_, events) = await lane.Api.WatchAsync(BridgedLane.Serial.Value, end.Token);
        return events.GetAsyncEnumerator(end.Token);
    }

    private static async Task<LaneBoard> UntilAsync(
        IAsyncEnumerator<SseItem<string>> events,
        Func<LaneBoard, bool> isSo
    )
    {
        LaneBoard? last = null;
        try
        {
            while (await events.MoveNextAsync())
            {
                if (events.Current.EventType == "board")
                {
                    last = JsonSerializer.Deserialize(events.Current.Data, ClinicJson.Default.LaneBoard)!;
                    if (isSo(last))
                    {
                        return last;
                    }
                }
            }
        }
        catch (OperationCanceledException)
        {
            // Out of patience: the last board says why.
        }

        throw new InvalidOperationException($"It never was so; last came {last} with {last?.Exam?.Prompt}.");
    }
}
