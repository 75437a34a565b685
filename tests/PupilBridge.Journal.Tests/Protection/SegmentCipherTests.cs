using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>The library's cipher against a published vector, and what stands on disk against what docs/journal.md says.</summary>
public sealed class SegmentCipherTests
{
    /// <summary>
    /// D. McGrew and J. Viega, "The Galois/Counter Mode of Operation (GCM)", appendix B, test case 16: the paper that
    /// NIST SP 800-38D is made from.
    /// </summary>
    [Fact]
    public void The_library_gives_the_published_result()
    {
        byte[] key = Convert.FromHexString("feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308");
        byte[] nonce = Convert.FromHexString("cafebabefacedbaddecaf888");
        byte[] data = Convert.FromHexString("feedfacedeadbeeffeedfacedeadbeefabaddad2");
        byte[] plain = Convert.FromHexString(
            "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525"
                + "b16aedf5aa0de657ba637b39"
        );
        byte[] cipher = new byte[plain.Length];
        byte[] tag = new byte[16];
        using var gcm = new AesGcm(key, 16);
        gcm.Encrypt(nonce, plain, cipher, tag, data);
        Assert.Equal(
            "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838"
                + "c5f61e6393ba7a0abcc9f662",
            Convert.ToHexStringLower(cipher)
        );
        Assert.Equal("76fc6ece0f4e1768cddf8853bb2d551b", Convert.ToHexStringLower(tag));
    }

    [Fact]
    public void A_record_on_disk_opens_by_the_rules_of_the_format_page_alone()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        byte[] segment = disk.Content(MemoryJournal.Segment(2));
        byte[] keyFile = disk.Content(MemoryJournal.Key(2));
        Assert.Equal(1, BinaryPrimitives.ReadInt32LittleEndian(segment.AsSpan(120)));
        Assert.Equal(keyFile[16..32], segment[124..140]);
        byte[] key = MemoryJournal.Keys.Unwrap(
            keyFile.AsSpan(36, BinaryPrimitives.ReadInt32LittleEndian(keyFile.AsSpan(32)))
        );

        ReadOnlySpan<byte> record = segment.AsSpan(256);
        int stored = BinaryPrimitives.ReadInt32LittleEndian(record);
        byte[] nonce = [0, 0, 0, 0, .. record.Slice(8, 8)];
        byte[] plain = new byte[stored - 16];
        using var gcm = new AesGcm(key, 16);
        gcm.Decrypt(nonce, record.Slice(56, stored - 16), record.Slice(56 + stored - 16, 16), plain, record[..56]);

        Assert.Equal(MemoryJournal.Text(8), Encoding.UTF8.GetString(plain));
    }

    [Fact]
    public void No_sequence_is_encrypted_twice_under_one_key()
    {
        using var cipher = new SegmentCipher(new byte[32]);
        byte[] record = new byte[RecordLayout.OverheadBytes + 16 + 3];
        BinaryPrimitives.WriteInt64LittleEndian(record.AsSpan(8), 5);
        cipher.Seal(record, "abc"u8);
        Assert.Throws<InvalidOperationException>(() => cipher.Seal(record, "abd"u8));
        BinaryPrimitives.WriteInt64LittleEndian(record.AsSpan(8), 4);
        Assert.Throws<InvalidOperationException>(() => cipher.Seal(record, "abc"u8));
    }

    [Fact]
    public void Over_failures_and_power_losses_no_nonce_stands_twice_under_one_key()
    {
        int records = 0;
        HashSet<string> keys = [];
        for (int seed = 1; seed <= 30; seed++)
        {
            var disk = new FaultyDisk(seed);
            JournalOptions options = MemoryJournal.Options(segmentBytes: 2500, encrypt: true);
            var life = new Life(disk, options, new Random(seed));
            for (int run = 0; run < 3; run++)
            {
                disk.FailAt = disk.Operations + 20 + seed;
                disk.FailFor = 2;
                life.Run(batches: 12, tries: 4, stop: false);
                disk.LosePower();
            }
            foreach (string name in disk.List(MemoryJournal.Folder.Segments).Where(n => SegmentName.TryParse(n, out _)))
            {
                byte[] segment = disk.Content(MemoryJournal.Folder.InSegments(name));
                Assert.True(keys.Add(Convert.ToHexString(segment.AsSpan(124, 16))), "a key served two segments");
                long[] sequences = [.. Sequences(segment)];
                Assert.Equal(sequences.Distinct().Count(), sequences.Length);
                records += sequences.Length;
            }
        }
        Assert.True(records > 1000, $"only {records} records were looked at");
    }

    private static IEnumerable<long> Sequences(byte[] segment)
    {
        for (int at = SegmentHeader.ByteCount; RecordLayout.IsSound(segment.AsSpan(at)); )
        {
            yield return RecordLayout.ReadSequence(segment.AsSpan(at));
            at += RecordLayout.RecordBytes(segment.AsSpan(at));
        }
    }
}
