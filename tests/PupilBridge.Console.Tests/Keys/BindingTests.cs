using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

public sealed class BindingTests : IDisposable
{
    private const string Source = """
        import { actionOf, addKey, labelsOf, readBindings, removeKey } from "./bindings.js";
        const of = (json) => readBindings(JSON.parse(json));
        export const read = (json) => JSON.stringify(of(json));
        export const add = (json, action, key) => JSON.stringify(addKey(of(json), JSON.parse(action), JSON.parse(key)));
        export const remove = (json, action, token) =>
            JSON.stringify(removeKey(of(json), JSON.parse(action), JSON.parse(token)));
        export const labels = (json, action) => JSON.stringify(labelsOf(of(json), JSON.parse(action)));
        export const action = (json, key) => JSON.stringify(actionOf(of(json), JSON.parse(key)));
        """;

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Fact]
    public void A_foot_switch_can_be_an_action_beside_its_keys()
    {
        var added = script.Call("add", null, "both", Key("F13"))!;

        Assert.Null(added["problem"]);
        Assert.Equal("both", script.Call("action", added["bindings"], Key("F13"))!.GetValue<string>());
        Assert.Equal("both", script.Call("action", added["bindings"], Key("Numpad8", "8"))!.GetValue<string>());
    }

    [Theory]
    [InlineData("Numpad3", "3", "grade3")]
    [InlineData("Minus", "-", "undo")]
    public void A_key_that_means_something_else_is_refused_with_what_it_means(string code, string key, string holder)
    {
        var added = script.Call("add", null, "both", Key(code, key))!;

        Assert.Equal("keyIsTaken", added["problem"]!["word"]!.GetValue<string>());
        Assert.Equal(holder, added["problem"]!["action"]!.GetValue<string>());
        Assert.Equal(script.Call("read", (JsonNode?)null)!.ToJsonString(), added["bindings"]!.ToJsonString());
    }

    [Theory]
    [InlineData("Tab")]
    [InlineData("ShiftLeft")]
    [InlineData("ArrowUp")]
    public void Keys_that_the_browser_needs_are_refused(string code) =>
        Assert.Equal("keyIsKept", script.Call("add", null, "both", Key(code))!["problem"]!["word"]!.GetValue<string>());

    [Fact]
    public void A_key_can_be_taken_away_and_given_to_another_action()
    {
        var without = script.Call("remove", null, "mute", "=m")!["bindings"];
        var added = script.Call("add", without, "near", Key("KeyM", "m"))!;

        Assert.Null(added["problem"]);
        Assert.Equal("near", script.Call("action", added["bindings"], Key("KeyM", "m"))!.GetValue<string>());
    }

    [Fact]
    public void Enter_and_undo_keep_a_key()
    {
        var less = script.Call("remove", null, "undo", "=-")!["bindings"];
        var none = script.Call("remove", less, "undo", "NumpadSubtract")!;

        Assert.Equal("keyIsNeeded", none["problem"]!["word"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("""{"both":["F13"],"nonsense":["F14"]}""")]
    [InlineData("""{"both":["F13"],"undo":"F14"}""")]
    [InlineData("""{"both":["F13"],"undo":[7]}""")]
    public void What_was_stored_is_read_as_far_as_it_is_understood(string stored)
    {
        var read = script.Call("read", JsonNode.Parse(stored))!;

        Assert.Equal("""["F13"]""", read["both"]!.ToJsonString());
        Assert.Equal("""["NumpadSubtract","=-"]""", read["undo"]!.ToJsonString());
        Assert.Null(read["nonsense"]);
    }

    [Fact]
    public void The_page_shows_each_key_once() =>
        Assert.Equal("""["3"]""", script.Call("labels", null, "grade3")!.ToJsonString());

    [Theory]
    [InlineData("KeyE", "E", false, "eyes")]
    [InlineData("KeyE", "E", true, null)]
    [InlineData("Digit8", "*", true, "bright")]
    [InlineData("Slash", "-", false, "undo")]
    [InlineData("Digit3", "\"", false, "grade3")]
    public void Capitals_lock_and_other_layouts_change_nothing(string code, string key, bool shift, string? action)
    {
        var pressed = Key(code, key);
        pressed["shift"] = shift;
        Assert.Equal(action, script.Call("action", null, pressed)?.GetValue<string>());
    }

    private static JsonObject Key(string code, string? key = null) => new() { ["code"] = code, ["key"] = key ?? code };
}
