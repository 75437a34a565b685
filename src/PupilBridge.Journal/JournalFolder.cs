using PupilBridge.Keys;

namespace PupilBridge.Journal;

/// <summary>
/// Where a journal lives: the data folder, which the lock guards as a whole, and the folder of segments in it; and the master keys
/// with which its encrypted segments are read.
/// </summary>
/// <param name="DataFolder">The data folder. It is made when missing.</param>
public sealed record JournalFolder(string DataFolder)
{
    /// <summary>The master keys at hand, null for none. A journal without encrypted segments needs none.</summary>
    public KeyRing? Keys { get; init; }

    /// <summary>The folder that holds the segments, and whatever was set aside beside them.</summary>
    public string Segments => Path.Combine(DataFolder, "journal");

    /// <summary>The file whose kernel lock guards the whole data folder.</summary>
    public string LockFile => Path.Combine(DataFolder, "lock");

    /// <summary>A text file that says who holds the lock, for a person to read; it guards nothing.</summary>
    public string LockHolderFile => Path.Combine(DataFolder, "lock-holder.txt");

    /// <summary>The full path of a file beside the segments.</summary>
    public string InSegments(string name) => Path.Combine(Segments, name);
}
