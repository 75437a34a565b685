using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

public sealed class StreamTests : IDisposable
{
    private const string Source = """
        import { begin, take } from "./stream.js";
        export function read(json) {
            let state = begin(), events = [], beats = 0;
            for (const piece of JSON.parse(json)) {
                const taken = take(state, piece);
                state = taken.state;
                events.push(...taken.events);
                beats += taken.beats;
            }
            return JSON.stringify({ events: events.map((one) => `${one.event}|${one.id}|${one.data}`), beats });
        }
        """;

    private const string Text =
        "event: board\nid: 4\ndata: {\"a\":1}\n\n: beat\n\nevent: board\nid: 5\ndata: {\"a\":2}\n\n";

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(1000)]
    public void Boards_and_beats_are_found_wherever_the_text_is_cut(int size)
    {
        var read = Read([.. Text.Chunk(size).Select(piece => new string(piece))]);

        Assert.Equal(["""board|4|{"a":1}""", """board|5|{"a":2}"""], Events(read));
        Assert.Equal(1, read["beats"]!.GetValue<int>());
    }

    [Fact]
    public void A_board_that_was_cut_off_is_none() => Assert.Empty(Events(Read("event: board\ndata: {\"a\":1}\n")));

    [Fact]
    public void Other_ends_of_lines_are_read() =>
        Assert.Equal(["board|null|x"], Events(Read("event: board\r", "\ndata: x\r\n\r\n")));

    private JsonNode Read(params string[] pieces) =>
        script.Call("read", new JsonArray([.. pieces.Select(piece => JsonValue.Create(piece))]))!;

    private static IReadOnlyList<string> Events(JsonNode read) =>
        [.. read["events"]!.AsArray().Select(one => one!.GetValue<string>())];
}
