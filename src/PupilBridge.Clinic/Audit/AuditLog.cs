using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// The audit stream: a second, smaller journal in the data folder, with the same format, checks and chain, so that an altered, removed or
/// inserted note shows. It is opened with the first note.
/// <para>
/// A read is <b>not</b> refused when its note cannot be recorded: an examiner before a patient must see the record, above all on a
/// day on which a disk is full. What was missed is counted, said in the log, and written into the next note that can be recorded.
/// </para>
/// </summary>
public sealed class AuditLog : IAuditLog, IDisposable
{
    private static readonly TimeSpan WaitAtMost = TimeSpan.FromSeconds(1);
    private const int Longest = 65_536;
    private static readonly TimeSpan TryAgainAfter = TimeSpan.FromSeconds(30);

    private readonly AuditParts parts;
    private readonly Lock gate = new();
    private JournalThread? thread;
    private JournalSource? source;
    private DateTimeOffset notBefore;
    private int missed;
    private bool isClosed;

    /// <summary>Names the stream; nothing is opened yet.</summary>
    /// <param name="parts">What it is made of.</param>
    public AuditLog(AuditParts parts) => this.parts = parts;

    /// <inheritdoc/>
    public async Task NoteAsync(AuditNote note)
    {
        ArgumentNullException.ThrowIfNull(note);
        // The opening reads files, and is left to another thread.
        var posted = await Task.Run(() => new Posted(Post(note))).ConfigureAwait(false);
        if (posted.OnDisk is { } onDisk)
        {
            // Longer waits nobody: the note is on its way, and the thread goes on trying.
            await Task.WhenAny(onDisk, Task.Delay(WaitAtMost, parts.Time)).ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public Task<AuditPage> ListAsync(AuditSearch search, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(search);
        return Task.Run(() => AuditReading.List(parts, search, End(), cancellationToken), cancellationToken);
    }

    /// <summary>Records what waits, marks the stop as clean and closes.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            isClosed = true;
            thread?.Stop(WaitAtMost);
            thread?.Dispose();
            (thread, source) = (null, null);
        }
    }

    /// <summary>The last note on disk.</summary>
    private long End()
    {
        lock (gate)
        {
            if (thread is not null)
            {
                return thread.Durable.Position.Sequence;
            }
        }

        return JournalEnd.Read(parts.Disk, parts.Folder)?.Position.Sequence ?? 0;
    }

    /// <summary>Gives a note to the writer.</summary>
    /// <returns>Done when it is on disk; null if it was missed.</returns>
    private Task? Post(AuditNote note)
    {
        var toSeal = Seal(note);
        lock (gate)
        {
            if (toSeal is not null && Open() is { } open)
            {
                var waiter = new Waiter();
                if (open.TryPost(toSeal.ToBytes(missed, Longest), waiter, 0))
                {
                    missed = 0;
                    return waiter.Task;
                }
            }

            if (missed++ == 0)
            {
                parts.Remark(ClinicText.Audit.Get("Log.Missed", parts.Folder.Segments, thread?.Trouble?.Message));
            }

            return null;
        }
    }

    /// <summary>Never in the clear where it should be sealed: a note whose patients' keys cannot be had is missed.</summary>
    private AuditSealing? Seal(AuditNote note)
    {
        try
        {
            return new AuditSealing(note, parts.SubjectKeys);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidOperationException)
        {
            return null;
        }
    }

    private JournalSource? Open()
    {
        if (source is not null || isClosed || parts.Time.GetUtcNow() < notBefore)
        {
            return source;
        }

        try
        {
            thread = new JournalThread(
                JournalWriter.Open(
                    parts.Disk,
                    new JournalOptions
                    {
                        Folder = parts.Folder,
                        Encrypt = parts.Encrypt,
                        MaxRecordBytes = Longest,
                        Writer = string.Create(CultureInfo.InvariantCulture, $"pupilbridge {parts.ProgramVersion}"),
                        Time = parts.Time,
                        PreallocateBytes = parts.PreallocateBytes,
                        // One note is found by walking its segment from the start, so that small ones keep the list quick.
                        MaxSegmentBytes = 4 << 20,
                    }
                )
            );
            return source = thread.OpenSource("audit");
        }
        catch (Exception fault) when (fault is JournalException or IOException or UnauthorizedAccessException)
        {
            notBefore = parts.Time.GetUtcNow() + TryAgainAfter;
            parts.Remark(ClinicText.Audit.Get("Log.CannotOpen", fault.Message));
            return null;
        }
    }

    private readonly record struct Posted(Task? OnDisk);

    private sealed class Waiter()
        : TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously),
            IDurableListener
    {
        public void OnDurable(long tag, long sequence) => TrySetResult();

        public void OnNotRecorded(long tag, string reason) => TrySetResult();
    }
}
