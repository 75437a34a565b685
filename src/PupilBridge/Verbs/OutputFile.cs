using System.CommandLine;
using System.Text;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs;

/// <summary>The file that a command writes: whole or not at all, and never over one that is there unless told to.</summary>
internal sealed class OutputFile
{
    /// <summary>Which file.</summary>
    public Option<string?> Output { get; } =
        new("--output", "-o") { Description = "The file to write.", HelpName = "FILE" };

    /// <summary>Whether it may take the place of another.</summary>
    public Option<bool> Force { get; } = new("--force") { Description = "Write over a file that is there already." };

    /// <summary>Writes text: into the file, or to standard output where none is named.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="text">The text.</param>
    public void Write(Call call, string text)
    {
        if (call.Get(Output) is null)
        {
            call.Terminal.Out.Write(text);
            return;
        }

        Write(call, Encoding.UTF8.GetBytes(text));
    }

    /// <summary>Writes bytes into the file.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="CommandFailure">No file is named, it is there already, or it cannot be written.</exception>
    public void Write(Call call, byte[] bytes)
    {
        var path =
            call.Get(Output)
            ?? throw new CommandFailure(
                ExitCode.Usage,
                "A file of this format is nothing for a terminal.",
                "Name where it goes with --output FILE."
            );
        Write(call, path, bytes, call.Get(Force));
    }

    /// <summary>Writes bytes into a file.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="path">The file.</param>
    /// <param name="bytes">The bytes.</param>
    /// <param name="mayReplace">Whether it may take the place of another.</param>
    /// <exception cref="CommandFailure">It is there already, or it cannot be written.</exception>
    public static void Write(Call call, string path, byte[] bytes, bool mayReplace)
    {
        if (!mayReplace && File.Exists(path))
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{path} is there already; nothing was written.",
                "Name another file, or add --force to write over it."
            );
        }

        var part = path + ".part";
        try
        {
            File.WriteAllBytes(part, bytes);
            File.Move(part, path, overwrite: mayReplace);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(
                ExitCode.Storage,
                $"{path} could not be written: {fault.Message}",
                "Name a file in a folder that exists and that you may write to."
            );
        }

        call.Remark($"Written: {path}, {bytes.Length} bytes.");
    }
}
