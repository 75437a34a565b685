namespace PupilBridge.Scenarios.Real;

/// <summary>
/// A small disk of our own: an ext4 file system in a file, mounted over a loop device. A copy of the file holds what the kernel had handed
/// to the device at that moment and nothing that only stood in its memory: what a cut of power leaves.
/// </summary>
public sealed class BlockDevice : IDisposable
{
    private readonly string mount;

    private BlockDevice(string image, string mount) => (Image, this.mount) = (image, mount);

    /// <summary>The file that is the disk.</summary>
    public string Image { get; }

    /// <summary>Where it is mounted.</summary>
    public string Root => mount;

    /// <summary>Makes and mounts an empty disk.</summary>
    /// <param name="folder">Where its file and its mount point lie.</param>
    /// <param name="megabytes">Its size.</param>
    /// <returns>The disk, or why this machine allows none.</returns>
    public static (BlockDevice? Disk, string? WhyNot) Make(string folder, int megabytes)
    {
        var image = Path.Combine(folder, "disk.img");
        using (var file = File.Create(image))
            file.SetLength(megabytes * 1024L * 1024);
        return Shell.Try("mkfs.ext4", "-q", "-F", image) is { } fault ? (null, fault) : Mount(folder, image);
    }

    /// <summary>Mounts a copy of a disk as it stands; the file system's own journal is replayed by that.</summary>
    /// <param name="folder">Where the copy and its mount point go.</param>
    /// <param name="image">The disk.</param>
    /// <returns>The copy, or why it cannot be mounted.</returns>
    public static (BlockDevice? Disk, string? WhyNot) Copy(string folder, string image)
    {
        Directory.CreateDirectory(folder);
        var copy = Path.Combine(folder, "disk.img");
        Shell.Run("cp", "--sparse=always", image, copy);
        return Mount(folder, copy);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Shell.Try("umount", mount);
        File.Delete(Image);
    }

    private static (BlockDevice? Disk, string? WhyNot) Mount(string folder, string image)
    {
        var mount = Directory.CreateDirectory(Path.Combine(folder, "mounted")).FullName;
        return Shell.Try("mount", "-o", "loop", image, mount) is { } fault
            ? (null, fault)
            : (new BlockDevice(image, mount), null);
    }
}
