using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;

namespace PupilBridge.Tests.Support;

/// <summary>Journals made without a service.</summary>
internal static class WrittenJournal
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    /// <summary>A journal of a few entries, all at the time given.</summary>
    public static void Write(string dataFolder, DateTimeOffset at, string reason = "first plugging in")
    {
        var options = new JournalOptions { Folder = new JournalFolder(dataFolder) };
        using var writer = JournalWriter.Open(RealDisk.Instance, options);
        writer.Append(
            EntryCodec.Encode(
                new ServiceStarted
                {
                    At = UtcTime.From(at),
                    ProgramVersion = "0.1.0",
                    Host = new HostId(0x51),
                }
            )
        );
        writer.Append(
            EntryCodec.Encode(
                new LineChanged
                {
                    At = UtcTime.From(at),
                    Serial = new SerialNumber("QA-7"),
                    PortName = "/dev/quay",
                    State = LineState.Connected,
                    Reason = reason,
                }
            )
        );
        writer.Append(
            EntryCodec.Encode(
                new InstrumentReported
                {
                    Serial = new SerialNumber("QA-7"),
                    Boot = new BootNumber(0xFE),
                    Sequence = 1,
                    RawLine = "EV,00000000000000FE,1,20,FIX,FAR*00000000",
                    HappenedAt = UtcTime.From(at),
                    UncertaintyMilliseconds = at.Millisecond,
                    ArrivedAt = UtcTime.From(at.AddMilliseconds(3)),
                }
            )
        );
        Assert.True(writer.Commit().IsDurable);
        Assert.True(writer.StopCleanly().IsDurable);
    }
}
