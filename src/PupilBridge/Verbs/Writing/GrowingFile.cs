using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Writing;

/// <summary>
/// A file that is written piece by piece beside its place and takes its name when it is whole: whoever looks finds all of it or none, and
/// one that is there is never written over unless told to.
/// </summary>
internal sealed class GrowingFile : IAsyncDisposable
{
    private readonly string path;
    private readonly bool mayReplace;

    private GrowingFile(string path, bool mayReplace, FileStream stream) =>
        (this.path, this.mayReplace, Stream) = (path, mayReplace, stream);

    /// <summary>Where to write.</summary>
    public FileStream Stream { get; }

    private string Part => path + ".part";

    /// <summary>Begins the file; only its owner may read it, since it is about patients.</summary>
    /// <param name="path">Its place.</param>
    /// <param name="mayReplace">Whether it may take the place of another.</param>
    /// <exception cref="CommandFailure">It is there already, or cannot be written.</exception>
    public static GrowingFile Begin(string path, bool mayReplace)
    {
        if (!mayReplace && File.Exists(path))
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{path} is there already; nothing was written.",
                "Name another file, or add --force to write over it."
            );
        }

        var options = new FileStreamOptions
        {
            Mode = FileMode.Create,
            Access = FileAccess.Write,
            BufferSize = 1 << 16,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        try
        {
            return new GrowingFile(path, mayReplace, new FileStream(path + ".part", options));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw Cannot(path, fault);
        }
    }

    /// <summary>Begins a file, writes it and gives it its name.</summary>
    /// <typeparam name="T">What the writing gives.</typeparam>
    /// <param name="path">Its place.</param>
    /// <param name="mayReplace">Whether it may take the place of another.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="CommandFailure">It is there already, or cannot be written.</exception>
    public static async Task<T> WriteAsync<T>(string path, bool mayReplace, Func<Stream, Task<T>> write)
    {
        var file = Begin(path, mayReplace);
        await using (file.ConfigureAwait(false))
        {
            return await file.FillAsync(write).ConfigureAwait(false);
        }
    }

    /// <summary>Writes it and gives it its name.</summary>
    /// <typeparam name="T">What the writing gives.</typeparam>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="CommandFailure">It cannot be written.</exception>
    public async Task<T> FillAsync<T>(Func<Stream, Task<T>> write)
    {
        try
        {
            var result = await write(Stream).ConfigureAwait(false);
            await Stream.FlushAsync().ConfigureAwait(false);
            await Stream.DisposeAsync().ConfigureAwait(false);
            File.Move(Part, path, mayReplace);
            return result;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw Cannot(path, fault);
        }
    }

    /// <summary>What was not finished is taken away.</summary>
    public async ValueTask DisposeAsync()
    {
        await Stream.DisposeAsync().ConfigureAwait(false);
        File.Delete(Part);
    }

    private static CommandFailure Cannot(string path, Exception fault) =>
        new(
            ExitCode.Storage,
            $"{path} could not be written: {fault.Message}",
            "Name a file in a folder that exists, has room and that you may write to."
        );
}
