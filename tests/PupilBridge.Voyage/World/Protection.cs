using System.Buffers.Binary;
using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;
using PupilBridge.Worker;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Voyage.World;

/// <summary>
/// The master keys of a clinic that encrypts, and their change. The key file stands for itself: it lies elsewhere and is always whole.
/// The keys of segments come from the operating system, as in life; nothing else in a voyage depends on their bytes.
/// </summary>
internal sealed class Protection
{
    private readonly Chance chance;
    private readonly TimeProvider time;
    private readonly string examLogFolder;
    private readonly Dictionary<MasterKeyId, byte[]> secrets = [];
    private bool isChanging;

    /// <summary>Makes the first master key.</summary>
    public Protection(long seed, TimeProvider time, string examLogFolder)
    {
        (chance, this.time, this.examLogFolder) = (new Chance(seed, "master keys"), time, examLogFolder);
        var first = NewKey();
        Ring = new KeyRing(first.Id, [first]);
    }

    /// <summary>The master keys at hand.</summary>
    public KeyRing Ring { get; private set; }

    /// <summary>How many changes of the master key came to their end.</summary>
    public int Changes { get; private set; }

    /// <summary>The bytes of a master key that is at hand; null for one that was dropped, or never was.</summary>
    public byte[]? Secret(MasterKeyId id) => Ring.Keys.Any(key => key.Id == id) ? secrets[id] : null;

    /// <summary>A new master key: from now on both are at hand, until everything is wrapped under the new one.</summary>
    public void BeginChange()
    {
        if (isChanging)
            return;
        isChanging = true;
        Ring = Ring.With(NewKey());
    }

    /// <summary>
    /// Goes on with a change while no service runs, as the product's command does: everything is wrapped anew, then the old key is
    /// dropped. Where the disk refuses, both stay at hand, and the next start tries again.
    /// </summary>
    /// <exception cref="ProcessDiedException">The process died meanwhile.</exception>
    public void GoOnChanging(FaultyDisk disk, JournalFolder folder)
    {
        if (!isChanging)
            return;
        IKeyHolder[] holders =
        [
            new JournalKeyHolder(disk, folder),
            new ExamLogKeys(examLogFolder),
            new SubjectKeyHolder(disk, folder.DataFolder),
            ResumeFolder.KeysOf(disk, folder.DataFolder),
        ];
        try
        {
            foreach (var holder in holders)
                holder.WrapAnew(Ring);
            Ring = Ring.Keeping(holders.SelectMany(holder => holder.Uses().Keys).ToHashSet());
            (isChanging, Changes) = (false, Changes + 1);
        }
        catch (Exception e) when (e is IOException or BridgeStartException)
        {
            // Tried again at the next start.
        }
    }

    private MasterKey NewKey()
    {
        var secret = new byte[MasterKey.ByteCount];
        for (var at = 0; at < secret.Length; at += sizeof(ulong))
            BinaryPrimitives.WriteUInt64LittleEndian(secret.AsSpan(at), chance.NextBits());
        var id = new MasterKeyId(chance.NextBits());
        secrets[id] = secret;
        return new MasterKey(id, secret, time.GetUtcNow());
    }
}
