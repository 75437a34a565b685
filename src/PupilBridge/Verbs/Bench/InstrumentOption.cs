using System.CommandLine;

namespace PupilBridge.Verbs.Bench;

/// <summary>The option that names the instrument.</summary>
internal static class InstrumentOption
{
    /// <summary>Makes a fresh <c>--instrument</c> option.</summary>
    public static Option<string?> New() =>
        new("--instrument")
        {
            Description = "The instrument's serial number. Without it: the only one that was ever met.",
            HelpName = "SERIAL",
        };
}
