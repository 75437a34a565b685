namespace PupilBridge.CommandLine;

/// <summary>The surroundings of one process, so that a test can give others: clock and environment variables.</summary>
/// <param name="Time">The clock.</param>
/// <param name="Variable">Reads an environment variable; null when it is not set.</param>
internal sealed record Surroundings(TimeProvider Time, Func<string, string?> Variable)
{
    /// <summary>The surroundings of this process.</summary>
    public static Surroundings OfProcess { get; } =
        new(TimeProvider.System, name => System.Environment.GetEnvironmentVariable(name));
}
