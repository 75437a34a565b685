using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Verbs.Instruments;

/// <summary>The file into which the commands of the bench record lines; never one that is there.</summary>
internal sealed class NewRecording
{
    /// <summary>Which file.</summary>
    public Option<string?> File { get; } =
        new("--record")
        {
            Description =
                "Also write the lines into this new file, as they crossed; docs/firmware-check.md has the format.",
            HelpName = "FILE",
        };

    /// <summary>Makes it and writes its head.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="port">The port's name.</param>
    /// <returns>What writes it; null if none was asked for.</returns>
    /// <exception cref="CommandFailure">The file is there already, or cannot be made.</exception>
    public StreamWriter? Create(Call call, string port)
    {
        if (call.Get(File) is not { } path)
        {
            return null;
        }

        if (System.IO.File.Exists(path))
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{path} is there already; a recording is never written over.",
                "Name a new file."
            );
        }

        try
        {
            var writer = new StreamWriter(new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read));
            foreach (var line in Recording.Head(port, call.Time.GetUtcNow()))
            {
                writer.Write(line + "\n");
            }

            return writer;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(
                ExitCode.Storage,
                $"The recording cannot be written: {fault.Message}",
                "Name a file in a folder that is there and that you may write to."
            );
        }
    }
}
