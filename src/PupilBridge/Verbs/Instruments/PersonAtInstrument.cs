using PupilBridge.CommandLine;
using PupilBridge.Conformance.Steps;

namespace PupilBridge.Verbs.Instruments;

/// <summary>Asks a person, on standard error, to do something at the instrument.</summary>
/// <param name="terminal">Where the person reads and types.</param>
internal sealed class PersonAtInstrument(Terminal terminal) : IBenchHands
{
    /// <inheritdoc/>
    public TimeSpan Patience => TimeSpan.FromSeconds(30);

    /// <inheritdoc/>
    public bool Ask(HandTask task)
    {
        // Filling a memory of 512 by hand would take an hour of pressing keys.
        if (task == HandTask.FillMemory)
        {
            return IsYes(
                "Can your firmware cause more than 600 events by itself within 30 s (a test key)? If so, start it now."
            );
        }

        terminal.Error.WriteLine($"Within 30 s, please: {Words(task)}");
        terminal.Error.Flush();
        return true;
    }

    /// <inheritdoc/>
    public void Thank(HandTask task)
    {
        terminal.Error.WriteLine("  seen.");
        terminal.Error.Flush();
    }

    /// <inheritdoc/>
    public bool WasDone(HandTask task) => IsYes($"The events for it did not come. Was it done ({Words(task)})?");

    private bool IsYes(string question)
    {
        terminal.Error.Write($"{question} [y/n] ");
        terminal.Error.Flush();
        var isYes = terminal.ReadKey?.Invoke().Key == ConsoleKey.Y;
        terminal.Error.WriteLine(isYes ? "yes" : "no");
        return isYes;
    }

    private static string Words(HandTask task) =>
        task switch
        {
            HandTask.TurnDial => "turn the dial to another stop",
            HandTask.MoveScales =>
                "turn the dial to measure, slide both scales slowly to one end and let them rest, then to the other end, and let them rest",
            HandTask.MarkEdge => "press a mark key",
            HandTask.LightLamp => "turn the dial so that a lamp goes on and off",
            HandTask.ChangeRoom => "change the light in the room, or turn its switch",
            HandTask.ChangeFixation => "change between far and near target",
            HandTask.SwingLens => "swing the viewing lens",
            _ => "cause more than 600 events",
        };
}
