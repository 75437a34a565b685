using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>What the lane asks of the service besides its feed: with a form token of who is signed in now, and a name that is true.</summary>
public sealed class ServiceTests : IDisposable
{
    private const string Source = """
        import { Service } from "./service.js";
        let asked = [], seated = [], signedIn = "HV", status = 0;
        globalThis.AbortSignal = { timeout: () => null };
        globalThis.fetch = async (path, { method, headers }) => {
            asked.push(`${method ?? "GET"} ${path}`);
            const isAsking = path === "/api/v1/session";
            const fits = headers["X-PupilBridge-Form"] === `token of ${signedIn}`;
            const body = isAsking ? { who: signedIn, formToken: `token of ${signedIn}` } : fits ? { done: true } : null;
            return {
                status: isAsking || fits ? 200 : 400,
                headers: { get: () => (body ? "application/json" : null) },
                json: async () => body,
            };
        };
        const service = new Service({ instrument: "QA-1", who: "HV", formToken: "token of HV" }, (who) => seated.push(who));
        const look = () => JSON.stringify({ asked, seated, who: service.lane.who, status });
        export const other = (who) => { signedIn = JSON.parse(who); return look(); };
        export const off = () => { service.switchOff().then((answer) => { status = answer.status; }); return look(); };
        export const state = look;
        """;

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Fact]
    public void An_instrument_is_switched_off_at_one_asking()
    {
        script.Call("off");

        Assert.Equal(200, (int)State["status"]!);
        Assert.Equal(["POST /api/v1/lanes/QA-1/switch-off"], List("asked"));
        Assert.Empty(List("seated"));
    }

    [Fact]
    public void After_another_tab_changed_the_examiner_it_is_still_switched_off_and_the_lane_learns_the_name()
    {
        script.Call("other", "MK");
        script.Call("off");

        Assert.Equal(200, (int)State["status"]!);
        Assert.Equal(["MK"], List("seated"));
        Assert.Equal("MK", (string?)State["who"]);
    }

    private JsonNode State => script.Call("state")!;

    private string[] List(string name) => [.. State[name]!.AsArray().Select(one => (string)one!)];
}
