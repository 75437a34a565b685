namespace PupilBridge.Journal;

/// <summary>
/// Reads the whole journal and checks every record's checksum, sequence and place in the chain, every segment's header and
/// link to the one before, and what lies about besides. Chain and checksums are over what is on disk, so they need no key; where the
/// master keys are at hand, each encrypted record is opened as well. It changes nothing and takes no lock.
/// </summary>
public sealed class JournalVerifier
{
    private readonly IJournalDisk _disk;
    private readonly JournalFolder _folder;
    private readonly HashSet<JournalPosition> _notSeen;
    private readonly List<JournalProblem> _problems = [];
    private readonly ClearRule _rule = new();
    private bool _inUse;
    private long _records;
    private long _entries;
    private long _bytes;
    private long _encrypted;
    private long _opened;
    private readonly byte[] _plain = new byte[RecordLayout.MaxPayloadBytes];
    private RecordClass _lastClass;

    private JournalVerifier(IJournalDisk disk, JournalFolder folder, IEnumerable<JournalPosition> expected)
    {
        _disk = disk;
        _folder = folder;
        _notSeen = [.. expected];
    }

    /// <summary>Verifies a journal.</summary>
    /// <param name="disk">Where it lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="expectedHead">
    /// A position that was written down elsewhere. The journal must lead through it; without one, nobody can tell whether
    /// the end was cut off or the whole was written anew.
    /// </param>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    public static VerifyReport Verify(IJournalDisk disk, JournalFolder folder, JournalPosition? expectedHead = null) =>
        Verify(disk, folder, expectedHead is { } head ? [head] : []);

    /// <summary>Verifies a journal against any number of positions that were written down elsewhere.</summary>
    /// <param name="disk">Where it lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="expectedHeads">The journal must lead through each of them.</param>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    public static VerifyReport Verify(
        IJournalDisk disk,
        JournalFolder folder,
        IReadOnlyCollection<JournalPosition> expectedHeads
    )
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(expectedHeads);
        return new JournalVerifier(disk, folder, expectedHeads).Run();
    }

    private VerifyReport Run()
    {
        _inUse = _disk.IsLocked(_folder);
        SegmentChain chain = SegmentChain.Load(_disk, _folder);
        var keys = new ChainKeys(_disk, _folder, chain);
        _problems.AddRange(chain.Problems);
        JournalPosition position = default;
        bool known = true;
        Expect(position);
        for (int index = 0; index < chain.Segments.Count; index++)
        {
            CheckLink(chain.Segments[index], position, known, isFirst: index == 0);
            CheckClear(keys, chain.Segments[index], index);
            (position, known) = Check(chain, keys, index, position);
        }
        LookAround(chain);
        string last = chain.Segments.Count > 0 ? chain.Segments[^1].Name : _folder.Segments;
        _problems.AddRange(_notSeen.OrderBy(head => head.Sequence).Select(head => OtherHead(head, last)));
        return new VerifyReport
        {
            Segments = chain.Segments.Count,
            Records = _records,
            Entries = _entries,
            Bytes = _bytes,
            Head = position,
            EncryptedRecords = _encrypted,
            OpenedRecords = _opened,
            EndsCleanly = _lastClass == RecordClass.CleanStop,
            InUse = _inUse,
            Problems = _problems,
        };
    }

    /// <summary>Says of the first segment in the clear after an encrypted one what the key says of it.</summary>
    private void CheckClear(ChainKeys keys, SegmentFile segment, int index)
    {
        StoredForm form = keys.FormOf(index);
        if (form == StoredForm.NotTold && keys.HoldsEncrypted && _rule.Standing != ClearStanding.Unannounced)
            _problems.Add(JournalProblem.FormNotTold(segment.Name));
        if (form == StoredForm.Encrypted || index == 0 || keys.FormOf(index - 1) != StoredForm.Encrypted)
            return;
        if (form == StoredForm.Clear && JournalProblem.InTheClear(segment.Name, _rule.Standing) is { } problem)
            _problems.Add(problem);
    }

    private (JournalPosition End, bool Known) Check(
        SegmentChain chain,
        ChainKeys keys,
        int index,
        JournalPosition before
    )
    {
        SegmentFile segment = chain.Segments[index];
        bool isLast = index + 1 == chain.Segments.Count;
        using SegmentCipher? cipher = CheckKey(segment, keys, index);
        bool isEncrypted = cipher is not null || keys.FormOf(index) == StoredForm.Encrypted;
        using SegmentWalk walk = chain.Walk(_disk, index, before);
        Expect(walk.Position);
        _lastClass = RecordClass.None;
        for (WalkStep step = walk.Next(); step != WalkStep.End; step = walk.Next())
        {
            if (step == WalkStep.Damage)
                _problems.Add(JournalProblem.Damaged(segment.Name, walk.Damage));
            else
                Count(walk);
            if (isEncrypted)
                Encrypted(segment, walk, step, cipher);
        }
        _bytes += walk.FileLength;
        if (walk.UnreadableAt is long unreadable)
            _problems.Add(JournalProblem.UnreadablePlace(segment.Name, unreadable));
        if (walk.Tail == SegmentTail.Torn)
            ReportTail(segment, walk, isLast);
        return (walk.Position, walk.ChainKnown);
    }

    private SegmentCipher? CheckKey(SegmentFile segment, ChainKeys keys, int index)
    {
        if (segment.Header is { Protection: 0 })
            return null;
        string name = SegmentName.KeyOf(segment.Number);
        try
        {
            SegmentKeyRecord? record = SegmentKeyStore.Read(_disk, _folder, segment.Number, out bool isWhole);
            if (record is not null && !isWhole)
                _problems.Add(JournalProblem.HalfKey(name));
            // Without master keys the key's place is all that can be looked at.
            bool isInPlace = record is not null && (segment.Header is null || segment.Header.DataKeyId == record.Id);
            return isInPlace && _folder.Keys is null ? null : keys.Open(index);
        }
        catch (Exception e) when (e is JournalKeyException or IOException or UnauthorizedAccessException)
        {
            _problems.Add(JournalProblem.NoKey(name, e.Message));
            return null;
        }
    }

    private void Count(SegmentWalk walk)
    {
        _records++;
        _lastClass = RecordLayout.ReadClass(walk.Record);
        if (_lastClass == RecordClass.Entry)
            _entries++;
        Expect(walk.Position);
    }

    private void Expect(JournalPosition position)
    {
        if (_notSeen.Count > 0)
            _notSeen.Remove(position);
    }

    private void Encrypted(SegmentFile segment, SegmentWalk walk, WalkStep step, SegmentCipher? cipher)
    {
        if (step == WalkStep.Damage)
        {
            _rule.PassDamage();
            return;
        }
        _encrypted++;
        int payload = RecordLayout.PayloadOf(walk.Record).Length - RecordLayout.TagBytes;
        if (cipher is null)
        {
            _rule.Pass(segment.Header, _lastClass, []);
        }
        else if (payload > 0 && cipher.Open(walk.Record, _plain.AsSpan(0, payload)))
        {
            _opened++;
            _rule.Pass(segment.Header, _lastClass, _plain.AsSpan(0, payload));
        }
        else
        {
            _rule.PassDamage();
            _problems.Add(JournalProblem.DoesNotOpen(segment.Name, walk.RecordOffset, walk.Position.Sequence));
        }
    }

    private void ReportTail(SegmentFile segment, SegmentWalk walk, bool isLast)
    {
        JournalProblem torn = JournalProblem.Torn(segment.Name, walk.Offset, walk.FileLength - walk.Offset);
        if (!isLast)
            torn = torn with { Advice = "Nothing to do: the segment after it says that they were never recorded." };
        // Beside a running service this is a write under way.
        if (!isLast || !_inUse)
            _problems.Add(torn);
    }

    private void CheckLink(SegmentFile segment, JournalPosition before, bool known, bool isFirst)
    {
        if (segment.Header is not { } header)
            return;
        bool startsAtZero = header.PredecessorNumber == 0 && header.Predecessor == default;
        if (isFirst && startsAtZero)
            return;
        if (!isFirst && known && header.Predecessor == before)
            return;
        if (!isFirst && !known && header.Predecessor.Sequence == before.Sequence)
            return;
        _problems.Add(
            new JournalProblem
            {
                Kind = ProblemKind.BrokenLink,
                Severity = ProblemSeverity.Damage,
                File = segment.Name,
                FirstSequence = Math.Min(before.Sequence, header.Predecessor.Sequence) + 1,
                LastSequence = Math.Max(before.Sequence, header.Predecessor.Sequence),
                Meaning =
                    $"The segment follows from sequence {header.Predecessor.Sequence} with another chain value than the records "
                    + "before it lead to: something between was removed or altered.",
                Advice = JournalProblem.Restore,
            }
        );
    }

    private void LookAround(SegmentChain chain)
    {
        foreach (SegmentFile abandoned in chain.Abandoned)
            _problems.Add(
                Remark(ProblemKind.AbandonedSegment, abandoned.Name, "A segment that no other follows from.")
            );
        foreach (string name in _disk.List(_folder.Segments))
        {
            if (SegmentName.IsSetAside(name))
                _problems.Add(Remark(ProblemKind.SetAside, name, "Bytes of an unfinished write that were set aside."));
            else if (SegmentName.TryParseKey(name, out long number))
                CheckOwner(chain, name, number);
            else if (!SegmentName.TryParse(name, out _) && !_inUse)
                _problems.Add(
                    Remark(ProblemKind.AbandonedSegment, name, "No segment, or one that was never finished.")
                );
        }
    }

    private void CheckOwner(SegmentChain chain, string name, long number)
    {
        bool hasSegment = chain.Segments.Concat(chain.Abandoned).Any(s => s.Number == number);
        if (!hasSegment && !_inUse)
            _problems.Add(Remark(ProblemKind.AbandonedSegment, name, "The key of a segment that is not there."));
    }

    private static JournalProblem Remark(ProblemKind kind, string file, string meaning) =>
        new()
        {
            Kind = kind,
            Severity = ProblemSeverity.Remark,
            File = file,
            Meaning = meaning + " Nothing in it was acknowledged.",
            Advice = "Nothing to do; keep it for whoever looks into the cause.",
        };

    private static JournalProblem OtherHead(JournalPosition expected, string file) =>
        new()
        {
            Kind = ProblemKind.OtherHead,
            Severity = ProblemSeverity.Damage,
            File = file,
            FirstSequence = expected.Sequence,
            LastSequence = expected.Sequence,
            Meaning =
                $"The journal does not lead through sequence {expected.Sequence} with the chain value {expected.Hash} that was "
                + "written down elsewhere: its end was cut off, or what is before it was written anew.",
            Advice = "Keep this folder, and compare with the backups from that time on.",
        };
}
