namespace PupilBridge.CommandLine;

/// <summary>The meaning of each exit code in one line, for help texts and for the table in docs/command-line.md.</summary>
internal static class ExitCodes
{
    /// <summary>Every code, in ascending order.</summary>
    public static IReadOnlyList<ExitCode> All { get; } = Enum.GetValues<ExitCode>();

    /// <summary>What a code means, as a phrase that continues "ends with N:".</summary>
    /// <param name="code">One of the codes.</param>
    /// <returns>A phrase without a full stop.</returns>
    /// <exception cref="ArgumentOutOfRangeException">It is none of the codes.</exception>
    public static string Meaning(ExitCode code) =>
        code switch
        {
            ExitCode.Done => "done as asked",
            ExitCode.Fault => "an unforeseen fault inside the program",
            ExitCode.Usage => "the command line is wrong",
            ExitCode.NotFound => "what was named does not exist",
            ExitCode.Refused => "understood, but not possible now",
            ExitCode.InUse => "the data folder belongs to another running copy",
            ExitCode.Configuration => "the configuration is invalid",
            ExitCode.Damaged => "a check found damage",
            ExitCode.Port => "a port or instrument could not be used",
            ExitCode.NoService => "the running service is needed and none answers",
            ExitCode.Storage => "files could not be read or written",
            ExitCode.Interrupted => "ended by Ctrl-C before it was finished",
            _ => throw new ArgumentOutOfRangeException(nameof(code), code, "Not an exit code of this program."),
        };
}
