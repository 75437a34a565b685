using PupilBridge.Keys.Files;

namespace PupilBridge.Keys.Tests.Files;

/// <summary>A disk in memory, one of whose operations fails, and after which nothing works, as if the process had died there.</summary>
internal sealed class FailingKeyDisk : IKeyDisk
{
    private readonly Dictionary<string, byte[]> files = [];

    public int FailAt { get; set; }

    public int Operations { get; private set; }

    public bool Exists(string path) => files.ContainsKey(path);

    public byte[] Read(string path) => files[path];

    public void WriteNew(string path, ReadOnlySpan<byte> content)
    {
        if (files.ContainsKey(path))
        {
            throw new IOException($"{path} exists");
        }

        // A write that fails leaves the beginning of what it was given.
        files[path] = content[..(content.Length / 2)].ToArray();
        MayFail();
        files[path] = content.ToArray();
    }

    public void Rename(string path, string newPath, bool replace)
    {
        MayFail();
        if (!replace && files.ContainsKey(newPath))
        {
            throw new IOException($"{newPath} exists");
        }

        files[newPath] = files[path];
        files.Remove(path);
    }

    public void Delete(string path)
    {
        MayFail();
        files.Remove(path);
    }

    public void CreatePrivateFolder(string folder) => MayFail();

    public void SyncFolder(string folder) => MayFail();

    public UnixFileMode? ModeOf(string path) => null;

    private void MayFail()
    {
        Operations++;
        if (FailAt > 0 && Operations >= FailAt)
        {
            throw new IOException("a fault was injected");
        }
    }
}
