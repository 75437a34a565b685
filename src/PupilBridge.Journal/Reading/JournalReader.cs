namespace PupilBridge.Journal;

/// <summary>
/// Reads the journal forward from a sequence, across segments. It never returns a record that fails its checks, goes on
/// behind a damaged place, and keeps what it met in <see cref="Problems"/>. Not safe from several threads.
/// </summary>
public sealed class JournalReader : IDisposable
{
    private readonly IJournalDisk _disk;
    private readonly JournalFolder _folder;
    private readonly long _from;
    private readonly Func<long> _limit;
    private readonly List<JournalProblem> _problems = [];
    private SegmentChain? _chain;
    private SegmentWalk? _walk;
    private SegmentCipher? _cipher;
    private readonly ClearRule _rule = new();
    private int _index;
    private long _given;

    private JournalReader(IJournalDisk disk, JournalFolder folder, long fromSequence, Func<long> limit)
    {
        _disk = disk;
        _folder = folder;
        _from = fromSequence;
        _limit = limit;
    }

    /// <summary>
    /// A reader beside the writer of the same process: it returns what is durable at the moment, and more when asked later.
    /// </summary>
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="fromSequence">The first sequence to return, from 1.</param>
    /// <param name="durable">Tells the durable sequence.</param>
    public static JournalReader Live(IJournalDisk disk, JournalFolder folder, long fromSequence, Func<long> durable) =>
        new(disk, folder, fromSequence, durable);

    /// <summary>A reader of a journal that nobody writes meanwhile: it returns all sound records.</summary>
    public static JournalReader Settled(IJournalDisk disk, JournalFolder folder, long fromSequence = 1) =>
        new(disk, folder, fromSequence, () => long.MaxValue);

    /// <summary>
    /// Finds one record, beside the writer of the same process, quickly: it reads one segment at most and checks the chain around
    /// that record only.
    /// </summary>
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="sequence">The record's sequence.</param>
    /// <param name="durable">The durable sequence; a record beyond it is not returned.</param>
    /// <returns>Null where no sound record stands.</returns>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static JournalRecord? Find(IJournalDisk disk, JournalFolder folder, long sequence, long durable)
    {
        if (sequence < 1 || sequence > durable)
            return null;
        if (RecordFinder.Find(disk, folder, sequence) is { } found)
            return found;
        using JournalReader reader = Live(disk, folder, sequence, () => durable);
        return reader.TryRead() is { } record && record.Sequence == sequence ? record : null;
    }

    /// <summary>Damage met so far. (A torn tail is none.)</summary>
    public IReadOnlyList<JournalProblem> Problems => _problems;

    /// <summary>Reads the next record; null when there is none at present.</summary>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    /// <exception cref="JournalKeyException">A segment is encrypted, and the keys at hand do not open it.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public JournalRecord? TryRead()
    {
        while (_limit() is long limit && (_walk is null || _walk.Position.Sequence < limit))
        {
            if (_walk is null && !OpenFirst())
                return null;
            switch (_walk!.Next())
            {
                // A segment whose header was altered may begin anew with sequences that were given already: the first stands, and the
                // verifier names the broken link.
                case WalkStep.Record when _walk.Position.Sequence < _from || _walk.Position.Sequence <= _given:
                    break;
                case WalkStep.Record when Copy(_walk) is { } record:
                    _given = record.Sequence;
                    return record;
                case WalkStep.Record:
                    break;
                case WalkStep.Damage:
                    _problems.Add(JournalProblem.Damaged(_chain!.Segments[_index].Name, _walk.Damage));
                    if (_cipher is not null)
                        _rule.PassDamage();
                    break;
                default:
                    if (!OpenNext())
                        return null;
                    break;
            }
        }
        return null;
    }

    /// <summary>The records from here to the present end.</summary>
    public IEnumerable<JournalRecord> ReadAll()
    {
        while (TryRead() is { } record)
            yield return record;
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    /// <summary>The record that the walk stands at; null where it is encrypted and is not what was encrypted.</summary>
    private JournalRecord? Copy(SegmentWalk walk)
    {
        ReadOnlySpan<byte> record = walk.Record;
        byte[]? payload = _cipher is null ? RecordLayout.PayloadOf(record).ToArray() : _cipher.Open(record);
        if (payload is null)
        {
            _rule.PassDamage();
            string file = _chain!.Segments[_index].Name;
            _problems.Add(JournalProblem.DoesNotOpen(file, walk.RecordOffset, walk.Position.Sequence));
            return null;
        }
        if (_cipher is not null)
            _rule.Pass(_chain!.Segments[_index].Header, RecordLayout.ReadClass(record), payload);
        return new JournalRecord(walk.Position.Sequence, RecordLayout.ReadClass(record), payload, walk.AfterDamage)
        {
            Hash = walk.Position.Hash,
        };
    }

    private bool OpenFirst()
    {
        _chain = SegmentChain.Load(_disk, _folder);
        if (_chain.Segments.Count == 0)
            return false;
        _problems.AddRange(_chain.Problems);
        _index = 0;
        for (int i = 1; i < _chain.Segments.Count; i++)
        {
            // Segments before the one that holds the wanted sequence need not be read.
            if (_chain.Segments[i].Header is { } header && header.FirstSequence <= _from)
                _index = i;
        }
        Enter(_index);
        return true;
    }

    /// <summary>Goes to the start of a segment; where that fails the reader stays where it was.</summary>
    private void Enter(int index)
    {
        var keys = new ChainKeys(_disk, _folder, _chain!);
        SegmentCipher? cipher = keys.Open(index);
        JournalPosition before = _walk?.Position ?? default;
        SegmentWalk walk = _chain!.Walk(_disk, index, before);
        bool isFirst = _walk is null;
        Close();
        (_walk, _cipher, _index) = (walk, cipher, index);
        if (cipher is null)
            TellOfClear(keys, index, isFirst);
    }

    /// <summary>Segments in the clear are read, and never silently where the key should have said so.</summary>
    private void TellOfClear(ChainKeys keys, int index, bool isFirst)
    {
        if (!isFirst && keys.FormOf(index - 1) != StoredForm.Encrypted)
            return;
        ClearStanding standing =
            _rule.Standing == ClearStanding.NothingEncrypted ? ClearRule.Before(keys, index) : _rule.Standing;
        if (JournalProblem.InTheClear(_chain!.Segments[index].Name, standing) is { } problem)
            _problems.Add(problem);
    }

    private void Close()
    {
        _walk?.Dispose();
        _cipher?.Dispose();
        (_walk, _cipher) = (null, null);
    }

    /// <summary>Goes on to the next segment, looking whether one was made meanwhile; false when there is none.</summary>
    private bool OpenNext()
    {
        SegmentFile here = _chain!.Segments[_index];
        if (_index + 1 == _chain.Segments.Count && !LoadNewer(here))
            return false;
        Enter(_index + 1);
        return true;
    }

    private bool LoadNewer(SegmentFile here)
    {
        SegmentChain chain = SegmentChain.Load(_disk, _folder);
        // Where the first write into a new segment failed it is off the chain, and another one follows the one before it. None of its
        // records was durable, so none was read here, and reading goes on in that one.
        int index = chain.Segments.ToList().FindLastIndex(s => s.Number <= here.Number);
        if (index + 1 == chain.Segments.Count)
            return false;
        _chain = chain;
        _index = index;
        return true;
    }
}
