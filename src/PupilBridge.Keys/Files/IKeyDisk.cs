namespace PupilBridge.Keys.Files;

/// <summary>
/// The file system as the key file sees it. Failures are <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>; after
/// one, any part of what was asked may have happened.
/// </summary>
internal interface IKeyDisk
{
    bool Exists(string path);

    byte[] Read(string path);

    /// <summary>Makes a file that nobody else may read, with its content, and makes the content durable.</summary>
    void WriteNew(string path, ReadOnlySpan<byte> content);

    /// <summary>Gives a file the name of another one, which it replaces if told so.</summary>
    void Rename(string path, string newPath, bool replace);

    void Delete(string path);

    /// <summary>Makes a folder that nobody else may enter, if it is missing, and makes that durable.</summary>
    void CreatePrivateFolder(string folder);

    /// <summary>Makes names made, changed and deleted in a folder durable.</summary>
    void SyncFolder(string folder);

    /// <summary>Who may do what with a file or folder; null where the system has no such modes.</summary>
    UnixFileMode? ModeOf(string path);
}
