using System.Text.Json;
using PupilBridge.Clinic.Text;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.People;

/// <summary>
/// The file <c>access.json</c> in the data folder, which only its owner may read. It is never changed in place: a new file is
/// written beside it, brought to the disk, and given its name. A damaged file is reported and left as it is.
/// </summary>
/// <remarks>
/// The service and commands beside it share the file: a change holds <c>access.lock</c> and starts from what is on disk. Safe for
/// several threads.
/// </remarks>
internal sealed class AccessFile
{
    /// <summary>The file's name.</summary>
    public const string Name = "access.json";

    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(20);
    private const int MaxTries = 500;

    private readonly string folder;
    private readonly TimeProvider time;
    private readonly Action<string> remark;
    private readonly Lock gate = new();
    private byte[]? lastBytes;
    private AccessList last = AccessList.Empty;

    /// <summary>Names the file; nothing is read yet.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="time">Waits for others who change the file.</param>
    /// <param name="remark">Told when permissions had to be tightened.</param>
    public AccessFile(string dataFolder, TimeProvider time, Action<string> remark)
    {
        folder = dataFolder;
        Path = System.IO.Path.Combine(dataFolder, Name);
        this.time = time;
        this.remark = remark;
    }

    /// <summary>Full path of the file.</summary>
    public string Path { get; }

    /// <summary>What is in the file now; nobody if there is none.</summary>
    /// <exception cref="AccessFileException">It is damaged, newer than this program, or cannot be read.</exception>
    public AccessList Read()
    {
        if (TryReadBytes() is not { } bytes)
        {
            return AccessList.Empty;
        }

        lock (gate)
        {
            // The few kilobytes are compared rather than the file's time, which is too coarse to tell two quick changes apart.
            if (lastBytes is not null && bytes.AsSpan().SequenceEqual(lastBytes))
            {
                return last;
            }
        }

        var list = Parse(bytes);
        lock (gate)
        {
            (lastBytes, last) = (bytes, list);
        }

        return list;
    }

    /// <summary>The content that was last read without fault; nobody before the first reading.</summary>
    public AccessList LastGood
    {
        get
        {
            lock (gate)
            {
                return last;
            }
        }
    }

    /// <summary>Changes the file.</summary>
    /// <typeparam name="T">What the change gives.</typeparam>
    /// <param name="step">From what is on disk to what shall be, and a result. The same list leaves the file as it is.</param>
    /// <param name="cancellation">Gives up while others change it.</param>
    /// <returns>The step's result, once the new content is on disk.</returns>
    /// <exception cref="AccessFileException">It is damaged or cannot be written.</exception>
    public async Task<T> ChangeAsync<T>(
        Func<AccessList, (AccessList List, T Result)> step,
        CancellationToken cancellation
    )
    {
        using var held = await HoldAsync(cancellation).ConfigureAwait(false);
        var before = Read();
        var (after, result) = step(before);
        if (!ReferenceEquals(before, after))
        {
            try
            {
                PrivateFile.Replace(Path, JsonSerializer.SerializeToUtf8Bytes(after, AccessJson.Default.AccessList));
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                throw new AccessFileException(ClinicText.People.Get("File.CannotWrite", Path, fault.Message), fault);
            }
        }

        return result;
    }

    private AccessList Parse(byte[] bytes)
    {
        AccessList? list;
        try
        {
            list = JsonSerializer.Deserialize(bytes, AccessJson.Default.AccessList);
        }
        catch (JsonException fault)
        {
            throw Damaged(ClinicText.People.Get("File.NoJson", (fault.LineNumber ?? 0) + 1), fault);
        }

        if (list is null || list.People is null || list.NotJournalled is null || list.Keys is null)
        {
            throw Damaged(ClinicText.People["File.NoList"], null);
        }

        return list.Version == AccessList.CurrentVersion
            ? list
            : throw new AccessFileException(
                ClinicText.People.Get("File.OtherFormat", Path, list.Version, AccessList.CurrentVersion)
            );
    }

    /// <summary>The file's bytes, null if there is none; if others could read it, it is closed to them first, and that is told.</summary>
    private byte[]? TryReadBytes()
    {
        try
        {
            if (PrivateFile.Close(Path))
            {
                remark(ClinicText.People.Get("File.WasOpen", Path));
            }

            return File.ReadAllBytes(Path);
        }
        catch (Exception none) when (none is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new AccessFileException(ClinicText.People.Get("File.CannotRead", Path, fault.Message), fault);
        }
    }

    private AccessFileException Damaged(string how, Exception? fault) =>
        new(ClinicText.People.Get("File.Damaged", Path, how), fault);

    private async Task<FileStream> HoldAsync(CancellationToken cancellation)
    {
        var path = System.IO.Path.Combine(folder, "access.lock");
        for (var tries = 1; ; tries++)
        {
            try
            {
                PrivateFile.MakeFolder(folder);
                return PrivateFile.OpenAlone(path);
            }
            catch (IOException) when (tries < MaxTries)
            {
                await Task.Delay(BetweenTries, time, cancellation).ConfigureAwait(false);
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                throw new AccessFileException(ClinicText.People.Get("File.CannotHold", path, fault.Message), fault);
            }
        }
    }
}
