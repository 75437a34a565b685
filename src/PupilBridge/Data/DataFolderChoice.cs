using PupilBridge.CommandLine;

namespace PupilBridge.Data;

/// <summary>
/// Which data folder a command works on. The first of these that is given counts: <c>--data</c>,
/// <c>PUPILBRIDGE_DATA</c>, the folder that the service manager hands over (<c>STATE_DIRECTORY</c>), and the user's own
/// place for application data.
/// </summary>
internal static class DataFolderChoice
{
    /// <summary>The environment variable that names a data folder.</summary>
    public const string Variable = "PUPILBRIDGE_DATA";

    /// <summary>The folder that this invocation works on.</summary>
    /// <param name="call">The invocation.</param>
    /// <returns>A full path; the folder need not exist.</returns>
    /// <exception cref="CommandFailure">No folder can be told, or the name given cannot be one.</exception>
    public static string For(Call call) => Full(call.Get(CommonOptions.Data) ?? Default(call.Environment));

    /// <summary>The folder of the demo: beside the clinic's own, so that no demo patient ever gets between real ones.</summary>
    /// <param name="call">The invocation.</param>
    /// <returns>A full path to the folder that holds one sub-folder for each demo run.</returns>
    /// <exception cref="CommandFailure">No folder can be told, or the name given cannot be one.</exception>
    public static string ForDemo(Call call) =>
        call.Get(CommonOptions.Data) is { } named ? Full(named) : Path.Combine(Full(Own()), "demo");

    private static string Default(Surroundings surroundings) =>
        Given(surroundings.Variable(Variable)) ?? FromServiceManager(surroundings) ?? Path.Combine(Own(), "clinic");

    private static string? FromServiceManager(Surroundings surroundings) =>
        // Several state directories come separated by colons; the first one is ours.
        Given(surroundings.Variable("STATE_DIRECTORY"))?.Split(':')[0];

    private static string Own()
    {
        var own = Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData,
            Environment.SpecialFolderOption.DoNotVerify
        );
        return own.Length > 0
            ? Path.Combine(own, "pupilbridge")
            : throw new CommandFailure(
                ExitCode.Usage,
                "This account has no folder for application data, so there is no default data folder.",
                $"Name one with --data DIR or in {Variable}."
            );
    }

    private static string? Given(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;

    private static string Full(string path)
    {
        try
        {
            return Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        }
        catch (Exception fault) when (fault is ArgumentException or NotSupportedException or PathTooLongException)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                $"'{path}' cannot be the name of a data folder: {fault.Message}",
                "Name another with --data DIR."
            );
        }
    }
}
