using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Voyage.World;

/// <content>What hangs on the journal, joined as the product joins it, and the exam log's work in pieces.</content>
internal sealed partial class SteppedService
{
    private Stretch? stretch;
    private bool isMade;
    private int pieceEntries;
    private TimeSpan examLogAt;

    /// <summary>Whether no erasure waits for the exam log to be made anew.</summary>
    public bool IsRenewed => examLog.Renewed.IsCompleted;

    private bool HasExamLogWork => examLog.Trouble is not null || !IsRenewed;

    [MemberNotNull(nameof(entries), nameof(examLog), nameof(Tracker), nameof(follower), nameof(Keeper))]
    private void Join(BridgeParts parts)
    {
        keys = SubjectKeyOpening.ForRecording(parts, Folder, journal.Durable.Position.Sequence);
        entries = new JournalEntries(NullLogger.Instance, keys);
        var duty = new ErasureDuty(keys, parts.Disk, Folder.DataFolder, RecordsFrom);
        examLog = new ExamLogKeeper(
            new ExamLogPlace(log.Folder, log.Options, ReadFrom, clock, NullLogger.Instance)
            {
                Settle = keys is null ? null : duty.Settle,
                HasErased = () => keys is { LastErasure: > 0 },
            }
        );
        Tracker = new ExamTracker(examLog.Find, FindOlder);
        var points = new ResumeKeeper(
            new ResumeFolder(disk, Folder.DataFolder, new FileSeal(parts.Keys, parts.Encrypt)),
            Tracker,
            sequence => JournalReader.Find(disk, Folder, sequence, journal.Durable.Position.Sequence)?.Hash,
            () => !IsRenewed,
            clock,
            NullLogger.Instance
        );
        follower = new JournalFollower(
            journal,
            disk,
            entries,
            Tracker,
            examLog,
            null,
            new LiveBoard(64),
            NullLogger.Instance
        )
        {
            Duty = duty,
            Points = points,
        };
        examLog.Follow(Tracker.Unwritten);
        examLog.FollowedBy(follower);
        // One that cannot be used is made anew before anything else.
        examLog.TryMend(CancellationToken.None);
        var known = new KnownEntries();
        follower.CatchUp(known);
        Keeper = new JournalKeeper(journal, known, this, keys);
    }

    /// <summary>Goes on with making the exam log anew, where it must be.</summary>
    private void GoOnWithExamLog()
    {
        if (stretch is null)
        {
            if (!HasExamLogWork)
                return;
            pieceEntries = 50 + (int)(Applied / laziness.NextInteger(2, 7));
            examLogAt = clock.Now + TimeSpan.FromSeconds(laziness.NextBetween(0, 20));
            stretch = new Stretch(() =>
                isMade = examLog.TryMend(CancellationToken.None) && examLog.TryRenew(CancellationToken.None)
            );
        }

        if (clock.Now < examLogAt)
            return;
        stretch.GoOn();
        examLogAt = clock.Now + TimeSpan.FromSeconds(laziness.NextBetween(0.2, 6));
        if (stretch.IsDone)
        {
            stretch.Dispose();
            stretch = null;
            examLogAt = isMade ? TimeSpan.Zero : clock.Now + ExamLogKeeper.RebuildRetry;
        }
    }

    /// <summary>An exam that ended long ago, for the reducer, which waits until there is an exam log.</summary>
    private Exam? FindOlder(ExamId id)
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                return examLog.Find(id);
            }
            catch (ExamLogBrokenException e) when (tries < 1000)
            {
                examLogAt = clock.Now;
                GoOnWithExamLog();
                if (stretch is null && !isMade)
                    throw new IOException(e.Message, e);
            }
        }
    }

    private IEnumerable<JournalRecord> RecordsFrom(long from)
    {
        var upTo = journal.Durable.Position.Sequence;
        using var all = JournalReader.Live(disk, Folder, from, () => upTo);
        foreach (var record in all.ReadAll())
            yield return record;
    }

    private IEnumerable<SequencedEntry> ReadFrom(long from)
    {
        var read = 0;
        foreach (var entry in entries.Of(RecordsFrom(from)))
        {
            yield return entry;
            // What is read from elsewhere is read while everything else stands still.
            if (from == 1 && ++read >= pieceEntries && stretch is { } resting)
            {
                read = 0;
                resting.Rest();
            }
        }
    }

    private void Leave()
    {
        stretch?.Dispose();
        stretch = null;
        if (examLog is not null)
            log.Abandon(examLog);
        reader?.Dispose();
        keys?.Dispose();
    }
}
