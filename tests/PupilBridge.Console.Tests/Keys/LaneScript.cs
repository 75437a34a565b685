using System.Text.Json.Nodes;
using Jint;
using Jint.Native;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>Runs the lane's own modules, as the page loads them, without a browser.</summary>
internal sealed class LaneScript : IDisposable
{
    private readonly Engine engine = new(options =>
        options.EnableModules(Path.Combine(AppContext.BaseDirectory, "lane"))
    );

    public LaneScript(string source) => engine.Modules.Add("rig", source);

    /// <summary>Calls a function of the rig with JSON, and reads what it returns as JSON.</summary>
    public JsonNode? Call(string function, params JsonNode?[] arguments)
    {
        var rig = engine.Modules.Import("rig");
        var json = arguments.Select(one => JsValue.FromObject(engine, one?.ToJsonString() ?? "null")).ToArray();
        return JsonNode.Parse(engine.Invoke(rig.Get(function), json).AsString());
    }

    public void Dispose() => engine.Dispose();
}
