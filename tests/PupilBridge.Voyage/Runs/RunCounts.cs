using PupilBridge.SimulatedDisk;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Runs;

/// <summary>What was counted: how much was sailed, what really went wrong, how full queues ever were.</summary>
internal sealed class RunCounts
{
    private readonly SortedDictionary<string, long> fired = new(StringComparer.Ordinal);

    public int Exams { get; set; }

    /// <summary>Virtual time with an exam in progress, summed over the instruments.</summary>
    public TimeSpan ExamTime { get; set; }

    public TimeSpan VirtualTime { get; set; }

    public long Steps { get; set; }

    public int Starts { get; set; }

    public int RefusedStarts { get; set; }

    /// <summary>How many operations of the disk were made to fail.</summary>
    public int FailedOperations { get; set; }

    public int SentAgain { get; set; }

    public int ExamLogRebuilds { get; set; }

    public long Records { get; set; }

    /// <summary>Of the records, those that are encrypted.</summary>
    public long EncryptedRecords { get; set; }

    /// <summary>The pieces of entries that are sealed under keys of their own, whether or not they still open.</summary>
    public long SealedPieces { get; set; }

    public long EntriesOfPeople { get; set; }

    /// <summary>What was ordered to be erased.</summary>
    public ErasureCounts Erasures { get; set; }

    public long Signed { get; set; }

    public int MostWaiting { get; set; }

    public int MostOfOnePort { get; set; }

    public int MostUnwritten { get; set; }

    public int MostKept { get; set; }

    public int MostOutgoing { get; set; }

    /// <summary>How often each fault really happened, by its name.</summary>
    public IReadOnlyDictionary<string, long> FiredByKind => fired;

    public static string NameOf(Trouble trouble) => "machine-" + Dashed(trouble.ToString());

    public static string NameOf(DiskFault fault) => "disk-" + Dashed(fault.ToString());

    public static string NameOfLine(string fault) => "line-" + fault;

    public void Fired(Trouble trouble, int times = 1) => Add(NameOf(trouble), times);

    public void AddDisk(FiredFaults disk)
    {
        foreach (var fault in Enum.GetValues<DiskFault>())
            Add(NameOf(fault), disk[fault]);
    }

    public void AddLine(IReadOnlyDictionary<string, long> line)
    {
        foreach (var (name, count) in line)
            Add(NameOfLine(name), count);
    }

    public void Add(RunCounts other)
    {
        Exams += other.Exams;
        ExamTime += other.ExamTime;
        VirtualTime += other.VirtualTime;
        Steps += other.Steps;
        Starts += other.Starts;
        RefusedStarts += other.RefusedStarts;
        SentAgain += other.SentAgain;
        ExamLogRebuilds += other.ExamLogRebuilds;
        Records += other.Records;
        EncryptedRecords += other.EncryptedRecords;
        SealedPieces += other.SealedPieces;
        EntriesOfPeople += other.EntriesOfPeople;
        Erasures += other.Erasures;
        Signed += other.Signed;
        MostWaiting = Math.Max(MostWaiting, other.MostWaiting);
        MostOfOnePort = Math.Max(MostOfOnePort, other.MostOfOnePort);
        MostUnwritten = Math.Max(MostUnwritten, other.MostUnwritten);
        MostKept = Math.Max(MostKept, other.MostKept);
        MostOutgoing = Math.Max(MostOutgoing, other.MostOutgoing);
        foreach (var (name, count) in other.fired)
            Add(name, count);
    }

    private void Add(string name, long count) => fired[name] = fired.GetValueOrDefault(name) + count;

    private static string Dashed(string name) =>
        string.Concat(
            name.Select((c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString())
        );
}
