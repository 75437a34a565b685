using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Lines;

namespace PupilBridge.Worker;

/// <summary>How the wish that an instrument switch itself off ended.</summary>
public enum SwitchOffResult
{
    /// <summary>The instrument said that it switches off.</summary>
    Done = 1,

    /// <summary>It is not connected; nothing was sent.</summary>
    NotConnected = 2,

    /// <summary>It cannot switch itself off; nothing was sent, or it does not know the command.</summary>
    Cannot = 3,

    /// <summary>It refused.</summary>
    Refused = 4,

    /// <summary>It stayed busy with something else.</summary>
    Busy = 5,

    /// <summary>No reply came; it may have switched off all the same.</summary>
    NoReply = 6,
}

/// <summary>How the wish that an instrument switch itself off ended.</summary>
/// <param name="Result">How.</param>
/// <param name="Reason">What happened and what to do next, for a person; empty where all is well.</param>
public sealed record SwitchOffEnding(SwitchOffResult Result, string Reason)
{
    internal static SwitchOffEnding NotConnected(Instrument.SerialNumber serial) =>
        new(
            SwitchOffResult.NotConnected,
            $"Instrument {serial} is not connected, so that it cannot be asked. Switch it off by hand, or plug it in."
        );

    internal static SwitchOffEnding Cannot(Instrument.SerialNumber serial) =>
        new(SwitchOffResult.Cannot, $"Instrument {serial} cannot switch itself off. Switch it off by hand.");

    internal static SwitchOffEnding Of(Instrument.SerialNumber serial, CommandEnding ending) =>
        ending.Outcome switch
        {
            CommandOutcome.Done => new(SwitchOffResult.Done, ""),
            CommandOutcome.Refused => new(
                SwitchOffResult.Refused,
                $"Instrument {serial} refused to switch off{Said(ending)}. Look at it, and switch it off by hand if it is not in use."
            ),
            CommandOutcome.Unknown => Cannot(serial),
            CommandOutcome.Busy => new(
                SwitchOffResult.Busy,
                $"Instrument {serial} is busy. Wait a moment and try again, or switch it off by hand."
            ),
            _ => new(
                SwitchOffResult.NoReply,
                $"Instrument {serial} did not answer{Said(ending)}. Look whether it is off, and switch it off by hand if it is not."
            ),
        };

    private static string Said(CommandEnding ending) =>
        ending.Reason.Length == 0 ? "" : $" ({ending.Reason.TrimEnd('.')})";
}
