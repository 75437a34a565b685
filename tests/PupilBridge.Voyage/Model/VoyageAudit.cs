using System.Security.Cryptography;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Voyage.World;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// The independent model: holds what lies on the disk at the end against what instruments did, and what instruments and people
/// were told.
/// </summary>
internal sealed partial class VoyageAudit(VoyageWorld world)
{
    private readonly List<string> problems = [.. world.Problems, .. world.People.Problems];
    private readonly Dictionary<long, JournalEntry> bySequence = [];
    private readonly Dictionary<long, IReadOnlyList<SealedPiece>> pieces = [];
    private JournalCopy copy = JournalCopy.Read(new Dictionary<string, byte[]>());
    private OwnSubjectKeys keys = OwnSubjectKeys.Of(world);

    /// <summary>What became of the instruments' events.</summary>
    public AuditResult Events { get; private set; } = AuditResult.None;

    /// <summary>Everything that must not be, one sentence each.</summary>
    public IReadOnlyList<string> Problems => problems;

    /// <summary>Stands for all that the journal says, opened where it is encrypted: the same seed gives the same one.</summary>
    public string Digest { get; private set; } = "";

    /// <summary>Holds everything against everything.</summary>
    /// <param name="examLogFolder">The exam log, closed.</param>
    /// <param name="beside">A folder in which it can be made anew.</param>
    public void Run(string examLogFolder, string beside)
    {
        CheckFiles();
        Digest = DigestOf(copy);
        foreach (var record in copy.Records.Where(r => r.Class == 1))
        {
            if (!EntryCodec.TryDecode(record.Payload.Span, keys, out var read, out var refusal))
                throw new EntryRefusedException(refusal!);
            bySequence[record.Sequence] = read!.Entry;
            if (SealedPiece.Of(record.Payload.Span, keys) is { Count: > 0 } of)
                pieces[record.Sequence] = of;
        }

        world.Counts.SealedPieces += pieces.Values.Sum(of => of.Count);
        world.Counts.Records += copy.Records.Count;
        world.Counts.EncryptedRecords += copy.Records.Count(r => r.IsEncrypted);
        CheckReported();
        CheckEvents();
        var erasures = new ErasureAudit(world, bySequence, pieces, keys);
        CheckPeople(erasures);
        problems.AddRange(erasures.Run(examLogFolder));
        CheckProjection(examLogFolder, beside);
        CheckPeaks();
    }

    /// <summary>The journal is whole, and hides what it is to hide.</summary>
    public IReadOnlyList<string> CheckFiles()
    {
        var files = world.Rotten.Undone(world.Disk, world.Folder);
        copy = JournalCopy.Read(files, new SegmentOpening(world.Disk, world.Folder, world.Protection));
        problems.AddRange(copy.Problems.Select(p => $"the chain: {p}"));
        CheckHidden(files);
        return problems;
    }

    private static string DigestOf(JournalCopy copy)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var record in copy.Records)
        {
            hash.AppendData(BitConverter.GetBytes(record.Sequence));
            hash.AppendData(BitConverter.GetBytes(record.Class));
            hash.AppendData(record.Payload.Span);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..16];
    }

    /// <summary>Nothing that a person entered or an instrument said can be read in an encrypted segment.</summary>
    private void CheckHidden(IReadOnlyDictionary<string, byte[]> files)
    {
        foreach (var (name, bytes) in files)
        {
            if (bytes.Length < 256 || !SegmentOpening.IsEncrypted(bytes))
                continue;
            if (bytes.AsSpan().IndexOf("Pilot Q-"u8) >= 0 || bytes.AsSpan().IndexOf(",REST,"u8) >= 0)
                problems.Add($"{name} is encrypted, and what was entered can be read in it");
        }
    }

    /// <summary>The product reports the rotten records, all of them and no others.</summary>
    private void CheckReported()
    {
        var report = JournalVerifier.Verify(world.Disk, world.Folder);
        var reported = report
            .Problems.Where(p => p.Severity == ProblemSeverity.Damage)
            .SelectMany(p => Sequences(p.FirstSequence, p.LastSequence))
            .ToHashSet();
        foreach (var lost in world.Rotten.Records.Keys.Where(s => !reported.Contains(s)))
            problems.Add($"record {lost} was spoilt on the disk, and nothing reports it");
        foreach (var healthy in reported.Where(s => !world.Rotten.Records.ContainsKey(s)))
            problems.Add($"record {healthy} is reported as damaged, and nobody touched it: {report.Summary}");
        using var reader = JournalReader.Settled(world.Disk, world.Folder);
        var read = reader.ReadAll().Select(r => r.Sequence).ToHashSet();
        foreach (var record in copy.Records)
        {
            if (read.Contains(record.Sequence) == world.Rotten.Records.ContainsKey(record.Sequence))
                problems.Add(
                    $"record {record.Sequence} is {(read.Contains(record.Sequence) ? "read though it is spoilt" : "not read")}"
                );
        }
    }

    private void CheckEvents()
    {
        // What rot took is held against the model as it was before: it was there exactly once.
        JournalEntry[] entries = [.. bySequence.OrderBy(e => e.Key).Select(e => e.Value)];
        var rotten = world.Rotten.Records.Keys.Where(bySequence.ContainsKey).Select(s => bySequence[s]).ToHashSet();
        foreach (var lane in world.Lanes)
        {
            var audit = JournalAudit.Compare(lane.Instrument.Truth, lane.Serial, entries);
            Events += audit;
            if (world.Rotten.Records.Count == 0)
            {
                problems.AddRange(audit.Problems.Select(p => $"{lane.Serial} {p}"));
                if (audit.Lost + audit.Doubled + audit.False + audit.GivenUp + audit.Pending != 0)
                    problems.Add(
                        $"{lane.Serial}: lost {audit.Lost}, doubled {audit.Doubled}, false {audit.False}, given up {audit.GivenUp}"
                    );
            }
        }

        var recorded = entries.OfType<InstrumentReported>().Select(e => (e.Serial, e.Boot, e.Sequence)).ToHashSet();
        foreach (var ((serial, boot), upTo) in world.Instruments.Acknowledged)
        {
            var losses = world
                .Lanes.Single(l => l.Serial == serial)
                .Instrument.Truth.Losses.Where(l => l.Boot == boot)
                .ToList();
            foreach (var sequence in Sequences(1, upTo))
            {
                if (
                    !recorded.Contains((serial, boot, sequence))
                    && !losses.Exists(l => l.First <= sequence && sequence <= l.Last)
                )
                    problems.Add(
                        $"{serial} boot {boot}: event {sequence} was acknowledged (up to {upTo}) and is not recorded"
                    );
            }
        }
    }

    /// <summary>What the service has of the exams is what a fresh reading of the journal gives, signed records byte for byte.</summary>
    private void CheckProjection(string examLogFolder, string beside)
    {
        using var log = ExamLogStore.Open(examLogFolder, world.ExamLogOptions);
        using var fresh = ExamLogStore.Open(beside);
        using var reader = JournalReader.Settled(world.Disk, world.Folder);
        var journal = new JournalEntries(Microsoft.Extensions.Logging.Abstractions.NullLogger.Instance, keys);
        ExamLogKeeper.Fill(fresh, journal.Of(reader.ReadAll()), CancellationToken.None);
        var (kept, anew) = (log.Verify(), fresh.Verify());
        if (kept != anew)
            problems.Add(
                $"the exam log holds {kept} at {log.LastApplied}, made anew from the journal {anew} at {fresh.LastApplied}"
            );
        foreach (var (sequence, entry) in bySequence)
        {
            if (entry is not ExamSigned signed || world.Rotten.Records.ContainsKey(sequence))
                continue;
            var version = ExamLogKeeper
                .FindIn(log, signed.Exam)
                ?.SignedVersions.FirstOrDefault(v => v.Entry == signed.Id);
            if (version is null)
            {
                if (world.People.Recorded.ContainsKey(signed.Id.ToString()) && world.Rotten.Records.Count == 0)
                    problems.Add(
                        $"version {signed.Version} of exam {signed.Exam} was told as signed, and is not among its signed ones"
                    );
                continue;
            }

            world.Counts.Signed++;
            // Of whoever was erased there is none, neither here nor there.
            if (version.Record != signed.Record)
                problems.Add($"version {signed.Version} of exam {signed.Exam} is not what was signed");
        }
    }

    private void CheckPeaks()
    {
        var counts = world.Counts;
        Bounded("entries waiting for the disk", counts.MostWaiting, 3 * 1024);
        Bounded("entries of one port waiting for the disk", counts.MostOfOnePort, 1024);
        Bounded("events kept by an instrument", counts.MostKept, 512);
        Bounded("bytes waiting to be sent", counts.MostOutgoing, 16 * 1024);
    }

    private void Bounded(string what, long most, long bound)
    {
        if (most > bound)
            problems.Add($"{what}: {most}, and {bound} is the bound");
    }

    private static IEnumerable<long> Sequences(long first, long last)
    {
        for (var sequence = first; sequence <= last; sequence++)
            yield return sequence;
    }
}
