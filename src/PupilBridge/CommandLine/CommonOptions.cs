using System.CommandLine;

namespace PupilBridge.CommandLine;

/// <summary>Options that mean the same wherever they stand.</summary>
internal static class CommonOptions
{
    /// <summary>The data folder; understood by every command.</summary>
    public static Option<string?> Data { get; } =
        new("--data")
        {
            Description = "The data folder. Without it: $PUPILBRIDGE_DATA, the service manager's folder, or your own.",
            HelpName = "DIR",
            Recursive = true,
        };

    /// <summary>Makes a fresh <c>--json</c> option.</summary>
    /// <param name="description">What is printed then.</param>
    /// <returns>A switch that is off by default.</returns>
    public static Option<bool> Json(string description = "Print one JSON document instead of text.") =>
        new("--json") { Description = description };
}
