using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>
/// Drives the keys of a lane with a clock of its own. A key that is pressed goes down, up 40 ms later, and 60 ms more pass, unless a
/// test says otherwise.
/// </summary>
internal sealed class KeypadRig : IDisposable
{
    private const string Source = """
        import { begin, nextTime, step, wants } from "./keypad.js";
        let state = begin("AB");
        export function take(json) {
            const { state: next, effects } = step(state, JSON.parse(json));
            state = next;
            return JSON.stringify(effects);
        }
        export function due() {
            const at = nextTime(state);
            return JSON.stringify(at === Infinity ? null : at);
        }
        export function wanted(json) {
            return JSON.stringify(wants(state, JSON.parse(json)));
        }
        """;

    private readonly LaneScript script = new(Source);
    private int ids;

    /// <summary>The time in ms.</summary>
    public double Now { get; private set; } = 10_000;

    /// <summary>When the keys want to be woken; null for never.</summary>
    public double? Due => script.Call("due")?.GetValue<double>();

    public KeypadRig Shows(JsonObject board)
    {
        Take("board", new() { ["board"] = board.DeepClone() });
        return this;
    }

    /// <summary>Lets time pass, waking the keys whenever they want it.</summary>
    public Effects Wait(double milliseconds)
    {
        var until = Now + milliseconds;
        var all = Effects.None;
        while (Due is { } due && due <= until)
        {
            Now = Math.Max(Now, due);
            all = all.And(Take("time"));
        }

        Now = until;
        return all;
    }

    /// <summary>A key is pressed and released, and it is waited until it counts.</summary>
    public Effects Press(string code, string? key = null)
    {
        var effects = Down(code, key).And(Wait(40)).And(Up(code)).And(Wait(60));
        return effects;
    }

    public Effects Down(string code, string? key = null, bool repeat = false, JsonObject? more = null)
    {
        var input = more ?? [];
        input["code"] = code;
        input["key"] = key ?? KeyOf(code);
        input["repeat"] = repeat;
        return Take("down", input);
    }

    public Effects Up(string code) => Take("up", new() { ["code"] = code });

    /// <summary>Characters come from a scanner, so many ms apart, with Enter at the end or not.</summary>
    public Effects Scan(string text, double apart = 8, bool enter = true)
    {
        var all = Effects.None;
        foreach (var one in text)
        {
            var code = char.IsAsciiDigit(one) ? $"Digit{one}" : $"Key{char.ToUpperInvariant(one)}";
            var shift = new JsonObject { ["shift"] = char.IsAsciiLetterUpper(one) };
            all = all.And(Down(code, one.ToString(), more: shift))
                .And(Wait(apart / 2))
                .And(Up(code))
                .And(Wait(apart / 2));
        }

        return enter ? all.And(Down("Enter")).And(Wait(2)).And(Up("Enter")).And(Wait(60)) : all.And(Wait(60));
    }

    public Effects Take(string type, JsonObject? more = null)
    {
        var input = more ?? [];
        input["type"] = type;
        input["at"] = Now;
        input["ids"] = new JsonArray($"id{++ids}", $"id{++ids}");
        return Effects.Read((JsonArray)script.Call("take", input)!);
    }

    public bool Wants(string code, JsonObject? more = null)
    {
        var input = more ?? [];
        input["code"] = code;
        input["key"] = KeyOf(code);
        return script.Call("wanted", input)!.GetValue<bool>();
    }

    public void Dispose() => script.Dispose();

    private static string KeyOf(string code) =>
        code switch
        {
            "NumpadDecimal" => ".",
            "NumpadSubtract" => "-",
            "NumpadMultiply" => "*",
            "NumpadDivide" => "/",
            "NumpadAdd" => "+",
            "NumpadEnter" or "Enter" => "Enter",
            _ when code.StartsWith("Numpad", StringComparison.Ordinal) => code[6..],
            _ when code.StartsWith("Digit", StringComparison.Ordinal) => code[5..],
            _ when code.StartsWith("Key", StringComparison.Ordinal) => code[3..].ToLowerInvariant(),
            _ => code,
        };
}
