using PupilBridge.CommandLine;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Verbs.Instruments;

/// <summary>Shows a recording as if its lines crossed now.</summary>
internal static class Replaying
{
    /// <summary>Shows all lines of a file.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="path">The file.</param>
    /// <exception cref="CommandFailure">There is no such file, it cannot be read, or it is no recording.</exception>
    public static void Show(Call call, string path)
    {
        if (!File.Exists(path))
        {
            throw new CommandFailure(ExitCode.NotFound, $"There is no file {path}.", "Check the name.");
        }

        try
        {
            Show(call, path, File.ReadLines(path));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(
                ExitCode.Storage,
                $"{path} cannot be read: {fault.Message}",
                "Check that you may read the file."
            );
        }
    }

    private static void Show(Call call, string path, IEnumerable<string> texts)
    {
        var output = new TraceOutput(call, record: null);
        var number = 0;
        foreach (var text in texts)
        {
            number++;
            if (number == 1 && text != Recording.FirstLine)
            {
                throw NoRecording(path, number, $"a recording begins with '{Recording.FirstLine}'");
            }

            if (!Recording.TryRead(text, out var line))
            {
                throw NoRecording(path, number, "it is not seconds, a direction and bytes");
            }

            if (line is not null)
            {
                output.Take(line);
            }
        }

        if (number == 0)
        {
            throw NoRecording(path, 1, "the file is empty");
        }

        output.Sum();
    }

    private static CommandFailure NoRecording(string path, int number, string why) =>
        new(
            ExitCode.Refused,
            $"{path}, line {number}: {why}.",
            "docs/firmware-check.md has the format; --record writes it."
        );
}
