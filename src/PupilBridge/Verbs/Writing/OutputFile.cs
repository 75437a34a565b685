using System.CommandLine;
using System.Text;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Writing;

/// <summary>The file that a command writes: whole or not at all, and never over one that is there unless told to.</summary>
internal sealed class OutputFile
{
    /// <summary>Which file.</summary>
    public Option<string?> Output { get; } =
        new("--output", "-o")
        {
            Description = "The file to write; without it, text goes to standard output.",
            HelpName = "FILE",
        };

    /// <summary>Whether it may take the place of another.</summary>
    public Option<bool> Force { get; } = new("--force") { Description = "Write over a file that is there already." };

    /// <summary>Writes text: into the file, or to standard output where none is named.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="text">The text.</param>
    /// <exception cref="CommandFailure">The file is there already, or cannot be written.</exception>
    public Task WriteAsync(Call call, string text)
    {
        if (call.Get(Output) is not null)
        {
            return WriteAsync(call, Encoding.UTF8.GetBytes(text));
        }

        call.Terminal.Out.Write(text);
        return Task.CompletedTask;
    }

    /// <summary>Writes bytes into the file.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="CommandFailure">No file is named, it is there already, or it cannot be written.</exception>
    public Task WriteAsync(Call call, byte[] bytes)
    {
        var path =
            call.Get(Output)
            ?? throw new CommandFailure(
                ExitCode.Usage,
                "A file of this format is nothing for a terminal.",
                "Name where it goes with --output FILE."
            );
        return WriteAsync(call, path, bytes);
    }

    /// <summary>Writes bytes into a file of another name.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="path">The file.</param>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="CommandFailure">It is there already, or it cannot be written.</exception>
    public async Task WriteAsync(Call call, string path, byte[] bytes)
    {
        var written = await GrowingFile
            .WriteAsync(
                path,
                call.Get(Force),
                async to =>
                {
                    await to.WriteAsync(bytes).ConfigureAwait(false);
                    return bytes.Length;
                }
            )
            .ConfigureAwait(false);
        call.Remark($"Written: {path}, {written} bytes.");
    }

    /// <summary>Writes UTF-8 piece by piece: into the file, or to standard output where none is named.</summary>
    /// <typeparam name="T">What the writing gives.</typeparam>
    /// <param name="call">The invocation.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="CommandFailure">The file is there already, or cannot be written.</exception>
    public async Task<T> WriteAsync<T>(Call call, Func<Stream, Task<T>> write)
    {
        if (call.Get(Output) is { } path)
        {
            return await GrowingFile.WriteAsync(path, call.Get(Force), write).ConfigureAwait(false);
        }

        var text = new Utf8ToText(call.Terminal.Out);
        await using (text.ConfigureAwait(false))
        {
            return await write(text).ConfigureAwait(false);
        }
    }
}
