using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests.Projection;

/// <summary>A data folder whose journal is written by a script, piece by piece, as if the service had stopped in between.</summary>
internal sealed class ScriptedFolder : IDisposable
{
    private readonly TempFolder folder = new();

    public ScriptedFolder() => Parts = new BridgeParts { Options = new BridgeOptions { DataFolder = folder.Path } };

    public BridgeParts Parts { get; }

    /// <summary>Writes a journal's entries in pieces of so many, and brings the exam log up to each, closing it in between.</summary>
    public void Write(IReadOnlyList<SequencedEntry> journal, int pieces = int.MaxValue)
    {
        foreach (var piece in journal.Chunk(pieces))
        {
            using (
                var writer = JournalWriter.Open(
                    Parts.Disk,
                    new JournalOptions { Folder = new JournalFolder(Parts.Options.DataFolder) }
                )
            )
            {
                foreach (var entry in piece)
                    Assert.Equal(entry.Sequence.Value, writer.Append(EntryCodec.Encode(entry.Entry)));
                Assert.True(writer.Commit().IsDurable);
            }

            using var opened = Open();
            Assert.Equal(piece[^1].Sequence.Value, opened.Log.LastApplied);
        }
    }

    /// <summary>A start: the book comes from what the exam log carries, the exams and runs from its documents.</summary>
    public OfflineFolder Open() => OfflineFolder.Open(Parts);

    public void Dispose() => folder.Dispose();
}
