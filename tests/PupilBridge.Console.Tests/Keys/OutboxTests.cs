using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

public sealed class OutboxTests : IDisposable
{
    private const string Source = """
        import { Outbox } from "./outbox.js";
        const held = new Map();
        const store = {
            get length() { return held.size; },
            key: (index) => [...held.keys()][index],
            getItem: (key) => held.get(key),
            setItem: (key, value) => held.set(key, value),
            removeItem: (key) => held.delete(key),
        };
        let answers = [], sent = [], outcomes = [], waits = [], later = [], signIns = 0, renewals = 0, box;
        const open = () => box = new Outbox({
            lane: "QA-1", store, now: () => 1000,
            send: async (entry) => {
                sent.push(entry.entryId);
                const answer = answers.shift() ?? { status: 0 };
                if (answer.status === 0) { throw new TypeError("no answer"); }
                return answer;
            },
            renew: async () => { renewals++; return true; },
            later: (ms, action) => { waits.push(ms); later.push(action); },
            changed: () => {},
            outcome: (item, answer) => outcomes.push(`${item.entry.entryId} ${answer.is}`),
            signIn: () => signIns++,
        });
        open();
        const look = () => JSON.stringify({
            sent, outcomes, waits, signIns, renewals, waiting: box.waiting, stored: held.size,
            states: box.items.map((item) => `${item.entry.entryId} ${item.state}`),
        });
        export const answer = (json) => { answers.push(...JSON.parse(json)); return look(); };
        export const add = (id, after) => { box.add({ entryId: JSON.parse(id) }, JSON.parse(after)); return look(); };
        export const again = () => { later.splice(0).forEach((action) => action()); return look(); };
        export const reopen = () => { sent = []; later = []; open(); box.pump(); return look(); };
        export const wake = () => { box.wake(); return look(); };
        export const dismiss = (id) => { box.dismiss(JSON.parse(id)); return look(); };
        export const state = look;
        """;

    private static readonly JsonNode Recorded = JsonNode.Parse(
        """{"status":200,"body":{"outcome":"recorded","sequence":7,"exam":3}}"""
    )!;

    private static readonly JsonNode Refused = JsonNode.Parse(
        """{"status":200,"body":{"outcome":"refused","reason":"Too early.","nextStep":"Wait."}}"""
    )!;

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Fact]
    public void What_was_recorded_is_forgotten()
    {
        Answer(Recorded);
        Add("a");

        Assert.Equal(["a recorded"], List("outcomes"));
        Assert.Equal(0, Number("waiting"));
        Assert.Equal(0, Number("stored"));
    }

    [Fact]
    public void Without_an_answer_an_entry_is_kept_and_sent_again_with_the_same_id()
    {
        Add("a");
        Assert.Equal(1, Number("waiting"));
        Assert.Equal(1, Number("stored"));

        Answer(Recorded);
        script.Call("again");
        Assert.Equal(["a", "a"], List("sent"));
        Assert.Equal(["a recorded"], List("outcomes"));
    }

    [Theory]
    [InlineData(500)]
    [InlineData(503)]
    [InlineData(408)]
    [InlineData(429)]
    public void A_service_that_cannot_just_now_is_asked_again_ever_more_slowly(int status)
    {
        Answer(Status(status), Status(status), Status(status), Recorded);
        Add("a");
        script.Call("again");
        script.Call("again");
        script.Call("again");

        Assert.Equal(["500", "1000", "2000"], List("waits"));
        Assert.Equal(["a recorded"], List("outcomes"));
    }

    [Fact]
    public void Entries_go_in_order_and_none_overtakes_one_that_waits()
    {
        Add("a");
        Add("b");
        Answer(Recorded, Recorded);
        script.Call("again");

        Assert.Equal(["a recorded", "b recorded"], List("outcomes"));
    }

    [Fact]
    public void A_page_that_was_closed_and_opened_again_sends_what_was_left_in_its_order()
    {
        Add("b");
        Add("a");
        Answer(Recorded, Recorded);
        script.Call("reopen");

        Assert.Equal(["b", "a"], List("sent"));
        Assert.Equal(0, Number("stored"));
    }

    [Fact]
    public void What_was_recorded_before_the_answer_was_lost_counts_as_recorded()
    {
        Answer(JsonNode.Parse("""{"status":200,"body":{"outcome":"alreadyRecorded","sequence":7,"exam":3}}""")!);
        Add("a");

        Assert.Equal(["a recorded"], List("outcomes"));
    }

    [Fact]
    public void A_refused_entry_stays_until_it_is_dismissed_and_holds_nothing_up()
    {
        Answer(Refused, Recorded);
        Add("a");
        Add("b");

        Assert.Equal(["a refused", "b recorded"], List("outcomes"));
        Assert.Equal(["a refused"], List("states"));
        script.Call("dismiss", "a");
        Assert.Empty(List("states"));
        Assert.Equal(0, Number("stored"));
    }

    [Fact]
    public void An_entry_that_makes_no_sense_without_a_refused_one_is_not_sent()
    {
        Answer(Status(503), Refused);
        Add("a");
        Add("b", after: "a");
        script.Call("again");

        Assert.Equal(["a", "a"], List("sent"));
        Assert.Equal(["a refused", "b refused"], List("outcomes"));
    }

    [Fact]
    public void Signed_off_nothing_is_lost_and_nothing_sent_until_someone_signed_in()
    {
        Answer(Status(401));
        Add("a");
        Add("b");
        Assert.Equal(["a"], List("sent"));
        Assert.Equal(1, Number("signIns"));
        Assert.Equal(2, Number("waiting"));

        Answer(Recorded, Recorded);
        script.Call("wake");
        Assert.Equal(["a recorded", "b recorded"], List("outcomes"));
    }

    [Fact]
    public void A_form_token_that_no_longer_holds_is_renewed_once()
    {
        Answer(Status(400), Recorded);
        Add("a");

        Assert.Equal(1, Number("renewals"));
        Assert.Equal(["a recorded"], List("outcomes"));
    }

    [Fact]
    public void A_service_that_keeps_saying_no_is_not_asked_for_ever()
    {
        Answer(Status(400), Status(400));
        Add("a");

        Assert.Equal(["a refused"], List("outcomes"));
    }

    private void Answer(params JsonNode[] answers) =>
        script.Call("answer", new JsonArray([.. answers.Select(one => one.DeepClone())]));

    private void Add(string id, string? after = null) => script.Call("add", id, after);

    private static JsonObject Status(int status) => new() { ["status"] = status, ["body"] = null };

    private IReadOnlyList<string> List(string name) =>
        [.. script.Call("state")![name]!.AsArray().Select(one => one!.ToString())];

    private int Number(string name) => script.Call("state")![name]!.GetValue<int>();
}
