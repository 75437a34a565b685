namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>What became of a key.</summary>
public enum KeyState
{
    /// <summary>It is there.</summary>
    Present = 1,

    /// <summary>It was destroyed: what it sealed is erased.</summary>
    Destroyed = 2,

    /// <summary>It cannot be read though nobody destroyed it: what it sealed is unreadable until the key file is put right.</summary>
    Unreadable = 3,
}

/// <summary>The keys under which parts of entries are sealed.</summary>
public interface ISubjectKeys
{
    /// <summary>The length of a key, in bytes.</summary>
    const int KeyBytes = 32;

    /// <summary>Reads a key.</summary>
    /// <param name="slot">Where it lies.</param>
    /// <param name="key">Takes its <see cref="KeyBytes"/> bytes if it is there.</param>
    /// <returns>What became of it.</returns>
    KeyState Read(KeySlot slot, Span<byte> key);
}

/// <summary>No keys at all: whatever is sealed stays unreadable.</summary>
public sealed class NoSubjectKeys : ISubjectKeys
{
    private NoSubjectKeys() { }

    /// <summary>The only one.</summary>
    public static NoSubjectKeys Instance { get; } = new();

    /// <inheritdoc/>
    public KeyState Read(KeySlot slot, Span<byte> key) => KeyState.Unreadable;
}
