using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Voyage.Model;
using PupilBridge.Voyage.Runs;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Tests;

/// <summary>The model must find what is broken on purpose: a check that cannot fail proves nothing.</summary>
public sealed class BrokenOnPurposeTests
{
    private static readonly VoyagePlan Plan = VoyagePlan.Of(2).Calm() with { Instruments = 1, ExamsEach = 2 };

    [Fact]
    public void A_calm_voyage_has_no_problem() => Assert.Empty(VoyageRun.Run(Plan).Problems);

    [Fact]
    public void An_event_that_is_left_out_is_found() =>
        Assert.Contains(
            Rewritten(Events, (_, _) => [Harmless]),
            p => p.Contains("was acknowledged", StringComparison.Ordinal)
        );

    [Fact]
    public void An_event_that_stands_twice_is_found() =>
        Assert.Contains(
            Rewritten(Events, (_, payload) => [payload, payload]),
            p => p.Contains("again", StringComparison.Ordinal)
        );

    [Fact]
    public void A_judgement_that_is_left_out_is_found() =>
        Assert.Contains(
            Rewritten(e => e is JudgementEntered, (_, _) => [Harmless]),
            p => p.Contains("JudgementEntry", StringComparison.Ordinal)
        );

    [Fact]
    public void An_entry_under_another_name_is_found() =>
        Assert.Contains(
            Rewritten(
                e => e is ExamMadeReady,
                (entry, _) => [EntryCodec.Encode((ExamMadeReady)entry with { Who = new PersonId("XX") })]
            ),
            p => p.Contains("it is XX's", StringComparison.Ordinal)
        );

    [Fact]
    public void An_altered_signed_record_is_found() =>
        Assert.Contains(
            Rewritten(
                e => e is ExamSigned,
                (entry, _) => [EntryCodec.Encode((ExamSigned)entry with { Record = ((ExamSigned)entry).Record + " " })]
            ),
            p =>
                p.Contains("SignEntry", StringComparison.Ordinal)
                || p.Contains("is not what was signed", StringComparison.Ordinal)
        );

    [Fact]
    public void A_changed_byte_is_found() =>
        Assert.Contains(
            VoyageRun.Run(Plan, world => world.Disk.Rot(Segment(world), SegmentHeaderBytes + 70, 1)).Problems,
            p => p.StartsWith("the chain", StringComparison.Ordinal)
        );

    [Fact]
    public void Rot_that_nothing_reports_is_found()
    {
        var problems = VoyageRun
            .Run(
                Plan,
                world =>
                {
                    var before = RottenPlaces.Files(world.Disk, world.Folder);
                    Assert.True(world.Rotten.TryRot(world.Disk, world.Folder, new Simulator.Chance(1, "rot")));
                    // Put back unseen: the model believes in rot that the product can no longer see.
                    foreach (var (name, bytes) in before)
                        world.Disk.Edit(world.Folder.InSegments(name), now => now.Replace(bytes));
                }
            )
            .Problems;
        Assert.Contains(problems, p => p.Contains("nothing reports it", StringComparison.Ordinal));
    }

    [Fact]
    public void A_disk_that_lies_about_syncs_is_found()
    {
        var plan = Plan with { PowerCuts = TimeSpan.FromMinutes(4) };
        var problems = VoyageRun.Run(plan, prepare: world => world.Disk.LiesAboutSyncs = true).Problems;
        Assert.Contains(
            problems,
            p =>
                p.Contains("was acknowledged", StringComparison.Ordinal)
                || p.Contains("was told as recorded", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_lost_key_of_a_segment_is_found() =>
        Assert.Contains(
            Encrypted(world => world.Disk.Edit(KeyOf(Segment(world)), bytes => bytes.Clear())),
            p => p.Contains("no key opens it", StringComparison.Ordinal)
        );

    [Fact]
    public void What_can_be_read_in_an_encrypted_segment_is_found() =>
        Assert.Contains(
            Encrypted(world => world.Disk.Edit(Segment(world), bytes => bytes.AddRange("Pilot Q-1001"u8))),
            p => p.Contains("can be read in it", StringComparison.Ordinal)
        );

    [Fact]
    public void A_segment_in_the_clear_that_nothing_under_the_key_announces_is_found() =>
        Assert.Contains(Encrypted(PutInTheClear), p => p.Contains("stands in the clear", StringComparison.Ordinal));

    /// <summary>Puts a segment in the clear behind the last one, as somebody can without any key: all checksums and the chain are right.</summary>
    private static void PutInTheClear(VoyageWorld world)
    {
        var last = JournalCopy.Read(RottenPlaces.Files(world.Disk, world.Folder)).Records[^1];
        var before = world.Disk.Content(world.Folder.InSegments(last.File));
        Assert.True(SegmentOpening.IsEncrypted(before), "the voyage ends in the clear");
        var header = before[..SegmentHeaderBytes];
        var number = BinaryPrimitives.ReadInt64LittleEndian(header.AsSpan(16));
        BinaryPrimitives.WriteInt64LittleEndian(header.AsSpan(16), number + 1);
        BinaryPrimitives.WriteInt64LittleEndian(header.AsSpan(24), last.Sequence + 1);
        BinaryPrimitives.WriteInt64LittleEndian(header.AsSpan(32), number);
        BinaryPrimitives.WriteInt64LittleEndian(header.AsSpan(40), last.Sequence);
        SHA256.HashData(before.AsSpan(last.Offset, last.Length), header.AsSpan(48, 32));
        header.AsSpan(120, 20).Clear();
        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(252), JournalCopy.Crc(header.AsSpan(0, 252)));
        var path = world.Folder.InSegments(SegmentName((int)number + 1));
        using (var file = world.Disk.Open(path, JournalFileMode.CreateNew))
            file.Write(header, 0);
        world.Disk.EndProcess();
    }

    /// <summary>The product refuses what it cannot open; what the model says must not hang on that.</summary>
    private static IReadOnlyList<string> Encrypted(Action<VoyageWorld> spoil)
    {
        using var world = new VoyageWorld(
            Plan with
            {
                Seed = 3,
                Encrypted = true,
                ExamsEach = 1,
            },
            Directory.CreateTempSubdirectory("voyage").FullName
        );
        world.Run();
        spoil(world);
        return new VoyageAudit(world).CheckFiles();
    }

    private static string KeyOf(string segment) => Path.ChangeExtension(segment, ".key");

    private const int SegmentHeaderBytes = 256;

    // In the place of what is left out, so that everything else stays where it was.
    private static byte[] Harmless { get; } =
        EntryCodec.Encode(
            new ServiceStarted
            {
                At = default,
                ProgramVersion = "nobody",
                Host = new Instrument.HostId(7),
            }
        );

    private static bool Events(JournalEntry entry) => entry is InstrumentReported { Sequence: 20 };

    private static string Segment(VoyageWorld world) => world.Folder.InSegments(SegmentName(1));

    private static string SegmentName(int number) => $"segment-{number:0000000000}.pbj";

    /// <summary>The voyage's journal written anew with some entries changed, chain and all, as no reader of the chain alone could tell.</summary>
    private static IReadOnlyList<string> Rewritten(
        Func<JournalEntry, bool> which,
        Func<JournalEntry, byte[], IReadOnlyList<byte[]>> change
    )
    {
        var changed = 0;
        var problems = VoyageRun
            .Run(
                Plan,
                world =>
                {
                    var copy = JournalCopy.Read(RottenPlaces.Files(world.Disk, world.Folder));
                    foreach (var name in world.Disk.List(world.Folder.Segments))
                        world.Disk.Remove(world.Folder.InSegments(name));
                    using var writer = JournalWriter.Open(
                        world.Disk,
                        new JournalOptions
                        {
                            Folder = world.Folder,
                            PreallocateBytes = 0,
                            Time = world.Clock,
                        }
                    );
                    foreach (var record in copy.Records.Where(r => r.Class == 1))
                    {
                        var payload = record.Payload.ToArray();
                        var entry = EntryCodec.Decode(payload);
                        var hit = which(entry);
                        changed += hit ? 1 : 0;
                        foreach (var bytes in hit ? change(entry, payload) : [payload])
                            writer.Append(bytes);
                    }

                    Assert.True(writer.Commit().IsDurable);
                    world.Disk.EndProcess();
                }
            )
            .Problems;
        Assert.True(changed > 0, "nothing was there to change");
        return problems;
    }
}

file static class Bytes
{
    public static void Replace(this List<byte> bytes, byte[] with)
    {
        bytes.Clear();
        bytes.AddRange(with);
    }
}
