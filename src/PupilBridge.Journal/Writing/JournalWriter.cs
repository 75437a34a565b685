using System.Globalization;
using System.Text;

namespace PupilBridge.Journal;

/// <summary>
/// Writes the journal: append, then commit. The single-threaded core under <see cref="JournalThread"/>; not safe from
/// several threads, and exactly one may exist for a data folder, which the folder's lock ensures.
/// <para>
/// <see cref="Append"/> only buffers. <see cref="Commit()"/> writes all that is buffered in one write, syncs once, and only
/// then moves <see cref="Durable"/>. If the write or the sync fails, nothing of the batch counts as recorded, the segment
/// is retired (a file whose sync failed once cannot be trusted by a later sync), and the batch stays buffered with the same
/// sequences: call <see cref="Commit()"/> again, which opens a new segment for it. More may be appended meanwhile.
/// </para>
/// </summary>
public sealed partial class JournalWriter : IDisposable
{
    private readonly IJournalDisk _disk;
    private readonly JournalOptions _options;
    private readonly IDisposable _lock;
    private readonly byte[] _zeros;
    private readonly RecordBatch _batch = new();
    private readonly List<JournalNotice> _notices;
    private SegmentWriter? _segment;
    private RetiredSegment? _retired;
    private long _predecessorNumber;
    private long _nextNumber;
    private SegmentReason _reason = SegmentReason.Start;
    private bool _disposed;

    private JournalWriter(IJournalDisk disk, JournalOptions options, IDisposable folderLock, RecoveredJournal recovered)
    {
        _disk = disk;
        _options = options;
        _lock = folderLock;
        _zeros = new byte[options.PreallocateBytes];
        _notices = [.. recovered.Notices];
        _predecessorNumber = recovered.PredecessorNumber;
        _nextNumber = recovered.NextNumber;
        (_predecessorForm, _isToAnnounceClear) = (
            recovered.PredecessorForm,
            !options.Encrypt && !recovered.MayGoOnInTheClear
        );
        Start = recovered.Start;
        Durable = recovered.Start.Recovered;
    }

    /// <summary>What was found at the opening.</summary>
    public JournalStart Start { get; }

    /// <summary>The position up to which all is durable. Only a successful commit moves it.</summary>
    public JournalPosition Durable { get; private set; }

    /// <summary>The options it was opened with.</summary>
    public JournalOptions Options => _options;

    /// <summary>
    /// Takes the lock of the data folder, finds how far the journal is good, and opens a new segment. The disk may be full:
    /// then the segment is opened by the first commit that succeeds.
    /// </summary>
    /// <exception cref="JournalLockedException">Another process uses the data folder.</exception>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    /// <exception cref="JournalKeyException">A segment is encrypted, and the keys at hand do not open it.</exception>
    /// <exception cref="JournalException">The journal cannot be read.</exception>
    public static JournalWriter Open(IJournalDisk disk, JournalOptions options)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(options);
        if (options.Encrypt && options.Folder.Keys is null)
            throw new JournalKeyException(
                $"The journal in {options.Folder.Segments} is to be encrypted, and no master key is at hand."
            );
        disk.CreateFolder(options.Folder.Segments);
        IDisposable folderLock = disk.Lock(options.Folder);
        try
        {
            var writer = new JournalWriter(
                disk,
                options,
                folderLock,
                JournalRecovery.Run(disk, options.Folder, options.Encrypt)
            );
            writer.TryOpenFirstSegment();
            return writer;
        }
        catch (Exception e)
        {
            folderLock.Dispose();
            if (e is not (IOException or UnauthorizedAccessException))
                throw;
            throw new JournalException(
                $"The journal in {options.Folder.Segments} cannot be read: {e.Message} Check the disk and the folder's permissions; "
                    + "no record was changed.",
                e
            );
        }
    }

    /// <summary>Buffers an entry.</summary>
    /// <returns>The sequence it gets. It is not recorded before a commit says so.</returns>
    /// <exception cref="ArgumentException">The payload is empty or longer than the options allow.</exception>
    public long Append(ReadOnlySpan<byte> payload)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        CheckLength(payload.Length);
        _batch.Add(RecordClass.Entry, payload);
        return Durable.Sequence + (_isToAnnounceClear ? 1 : 0) + _batch.Count;
    }

    /// <summary>Makes all that is buffered durable, or says why it could not.</summary>
    public JournalCommit Commit() => Commit(_batch);

    /// <summary>
    /// Commits what is buffered, marks the stop as clean, and closes. When that fails the journal is closed all the same,
    /// and the next start treats it as after a crash.
    /// </summary>
    public JournalCommit StopCleanly()
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        JournalCommit outcome = Commit(_batch);
        if (outcome.IsDurable)
        {
            long stopped = _options.Time.GetUtcNow().UtcTicks;
            string mark = string.Create(CultureInfo.InvariantCulture, $"utc-us={Microseconds(stopped)}\n");
            _batch.Add(RecordClass.CleanStop, Encoding.UTF8.GetBytes(mark));
            outcome = Commit(_batch);
        }
        if (outcome.IsDurable)
            _segment?.TrimAndClose();
        Dispose();
        return outcome;
    }

    /// <summary>Closes without a clean-stop mark, as a crash would, and drops what is buffered.</summary>
    public void Dispose()
    {
        if (_disposed)
            return;
        _disposed = true;
        _segment?.Dispose();
        _lock.Dispose();
    }

    internal void CheckLength(int payloadBytes)
    {
        if (payloadBytes < 1 || payloadBytes > _options.MaxRecordBytes)
            throw new ArgumentException(
                $"An entry of {payloadBytes} bytes cannot be recorded; it must have 1 to {_options.MaxRecordBytes} bytes."
            );
    }

    /// <summary>Commits a batch that the caller keeps: on success it is cleared, on failure it can be given again.</summary>
    internal JournalCommit Commit(RecordBatch batch)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        // Notices that could not be committed yet stand before what came later.
        if (_batch.Count > 0 && !ReferenceEquals(batch, _batch) && Commit(_batch) is { IsDurable: false } failed)
            return failed;
        try
        {
            if (_isToAnnounceClear)
                AnnounceClear();
            SegmentWriter segment = _segment ?? OpenNext();
            AddNotices(batch);
            if (batch.Count == 0)
                return new JournalCommit(Durable, null);
            if (IsFullFor(segment, batch.StoredBytes(_options.Encrypt)))
                segment = Roll(segment);
            JournalPosition after = batch.Seal(Durable, segment.Cipher);
            segment.WriteDurably(batch.Bytes);
            Durable = after;
            batch.Clear();
            return new JournalCommit(Durable, null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Retire(e);
            return new JournalCommit(Durable, JournalTrouble.From(e, _options.Folder));
        }
    }

    private static long Microseconds(long utcTicks) =>
        (utcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / TimeSpan.TicksPerMicrosecond;

    private bool IsFullFor(SegmentWriter segment, int bytes) =>
        segment.Length > SegmentHeader.ByteCount && segment.Length + bytes > _options.MaxSegmentBytes;

    private void TryOpenFirstSegment()
    {
        // Failing here is no reason not to start: the first commit tries again and says what is wrong.
        Commit(_batch);
    }

    private void AddNotices(RecordBatch batch)
    {
        foreach (JournalNotice notice in _notices)
            batch.Add(RecordClass.Notice, notice.Encode());
        _notices.Clear();
    }

    private SegmentWriter Roll(SegmentWriter full)
    {
        _segment = null;
        _reason = SegmentReason.Full;
        full.TrimAndClose();
        return OpenNext();
    }

    private SegmentWriter OpenNext()
    {
        return _options.Encrypt ? OpenEncrypted() : OpenNext(_nextNumber++, null, Guid.Empty);
    }

    private SegmentWriter OpenEncrypted()
    {
        long number = _nextNumber++;
        (SegmentCipher cipher, Guid key) = SegmentKeyStore.Make(_disk, _options.Folder, number);
        try
        {
            return OpenNext(number, cipher, key);
        }
        catch
        {
            // While the disk is full this is tried again and again, each time for a segment of another number.
            cipher.Dispose();
            SegmentKeyStore.Discard(_disk, _options.Folder, number);
            throw;
        }
    }

    private SegmentWriter OpenNext(long number, SegmentCipher? cipher, Guid key)
    {
        var header = new SegmentHeader
        {
            Reason = _reason,
            Number = number,
            PredecessorNumber = _predecessorNumber,
            Predecessor = Durable,
            CreatedUnixMicroseconds = Microseconds(_options.Time.GetUtcNow().UtcTicks),
            BootId = _disk.BootId,
            WriterInstance = _options.WriterInstance,
            Protection = cipher is null ? 0 : SegmentHeader.AesGcmProtection,
            DataKeyId = key,
            PredecessorForm = _predecessorForm,
            Writer = _options.Writer,
        };
        SegmentWriter segment = SegmentWriter.Create(_disk, _options.Folder, header, _zeros, cipher);
        _segment = segment;
        _predecessorNumber = header.Number;
        _predecessorForm = cipher is null ? StoredForm.Clear : StoredForm.Encrypted;
        Durable = new JournalPosition(Durable.Sequence, segment.Segment.HeaderHash);
        SetRetiredAside();
        return segment;
    }

    private void Retire(Exception cause)
    {
        if (_segment is null)
            return;
        _retired = new RetiredSegment(_segment.Segment, _segment.Length, cause.Message);
        _reason = SegmentReason.Failure;
        _segment.Dispose();
        _segment = null;
    }

    /// <summary>
    /// Now that a new segment is durable, takes what lies beyond the last durable record off the retired one. If that disk
    /// does not let us, the new segment's header still says where the old one ends.
    /// </summary>
    private void SetRetiredAside()
    {
        if (_retired is not { } retired)
            return;
        _retired = null;
        JournalNotice notice;
        try
        {
            notice = SegmentTrimmer.SetAside(_disk, _options.Folder, retired.Segment, retired.Length);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            string left = "What lies beyond is not recorded, and was left there.";
            notice = new JournalNotice(ProblemKind.TornTail, retired.Segment.Name, retired.Length, 0, 0, 0, left);
        }
        _notices.Add(notice with { Text = $"A write failed ({retired.Cause}). {notice.Text}" });
    }

    private readonly record struct RetiredSegment(SegmentFile Segment, long Length, string Cause);
}
