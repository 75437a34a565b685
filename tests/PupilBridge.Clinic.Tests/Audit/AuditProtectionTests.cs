using System.Globalization;
using PupilBridge.Clinic.Audit;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Protection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.Tests.Audit;

/// <summary>The audit stream under the master key: encrypted like the journal, its keys wrapped anew with the others.</summary>
public sealed class AuditProtectionTests
{
    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public async Task Who_looked_stands_in_no_file_of_an_encrypted_stream(bool encrypt, int files)
    {
        using var bench = new AuditBench(encrypt);
        await bench.NoteAsync("/exams-eraseme");
        bench.Restart();
        Assert.Equal(files, bench.FilesWith("/exams-eraseme").Count());
        Assert.Equal("/exams-eraseme", Assert.Single(await bench.ListAsync()).Path);
        Assert.True(bench.IsSound);
    }

    [Fact]
    public async Task After_another_master_key_it_opens_with_the_new_one_alone()
    {
        using var bench = new AuditBench(encrypt: true);
        bench.Enter("Q-1001");
        await bench.NoteAsync(null, "Q-1001");
        var old = bench.Masters!;
        bench.Log.Dispose();
        bench.Keys.Dispose();
        var both = old.With(MasterKey.Create(bench.Time));
        var holders = KeyHolders.Of(RealDisk.Instance, bench.DataFolder);
        var audit = holders.Single(holder => holder.Name == "audit trail");
        Assert.Equal((old.Current, 1), (audit.Uses().Single().Key, audit.Uses().Single().Value));
        foreach (var holder in holders)
            holder.WrapAnew(both);
        Assert.Equal(both.Current, audit.Uses().Single().Key);

        bench.Masters = both.Keeping(new HashSet<MasterKeyId>());
        Assert.Single(bench.Masters.Keys);
        bench.Keys = SubjectKeyStore.Open(RealDisk.Instance, bench.DataFolder, bench.Masters);
        bench.Open();
        Assert.Equal(["Q-1001"], Assert.Single(await bench.ListAsync()).Patients);
        await bench.NoteAsync(null, "Q-1001");
        Assert.Equal(2, (await bench.ListAsync()).Count);
    }

    [Fact]
    public async Task Notes_of_older_versions_are_read_beside_new_ones_and_found_by_number()
    {
        using var bench = new AuditBench(encrypt: true);
        bench.Enter("Q-1001");
        bench.Log.Dispose();
        // As it was written before: in the clear, the number in the path as well.
        using (var before = new AuditLog(bench.Parts with { Encrypt = false, SubjectKeys = () => null }))
        {
            await before.NoteAsync(
                new AuditNote
                {
                    At = bench.Time.GetUtcNow(),
                    Who = "JL",
                    What = AuditWhat.Patient,
                    Way = AuditWay.Page,
                    Path = "/patients/Q-1001",
                    Patients = ["Q-1001"],
                }
            );
        }

        Assert.NotEmpty(bench.FilesWith("Q-1001"));
        bench.Open();
        await bench.NoteAsync("/patients/Q-1001", "Q-1001");
        var notes = await bench.ListAsync("Q-1001");
        Assert.Equal(["MK", "JL"], notes.Select(note => note.Who));
        Assert.All(notes, note => Assert.Equal("/patients/Q-1001", note.Path));
        Assert.True(bench.IsSound);
    }

    [Fact]
    public async Task Where_encryption_is_switched_off_the_stream_says_so_under_the_key_and_goes_on()
    {
        using var bench = new AuditBench(encrypt: true);
        bench.Enter("Q-1001");
        await bench.NoteAsync(null, "Q-1001");
        bench.Log.Dispose();
        for (var start = 0; start < 2; start++)
        {
            using var clear = new AuditLog(bench.Parts with { Encrypt = false });
            var note = new AuditReader("JL", AuditWay.Page).Note(AuditWhat.Record, bench.Time.GetUtcNow());
            await clear.NoteAsync(note with { Patients = ["Q-1001"] });
        }

        bench.Open();
        Assert.Equal(["JL", "JL", "MK"], (await bench.ListAsync("Q-1001")).Select(line => line.Who));
        Assert.Empty(JournalVerifier.Verify(RealDisk.Instance, bench.Parts.Folder).Problems);
        Assert.Empty(bench.Remarks);
    }

    [Fact]
    public async Task Where_the_patients_keys_cannot_be_had_a_note_is_missed_and_never_made_in_the_clear()
    {
        using var bench = new AuditBench(encrypt: false);
        bench.Log.Dispose();
        var isOpen = false;
        using var log = new AuditLog(
            bench.Parts with
            {
                SubjectKeys = () => isOpen ? bench.Keys : throw new InvalidOperationException("not open"),
            }
        );
        var note = new AuditReader("MK", AuditWay.Page).Note(AuditWhat.Record, bench.Time.GetUtcNow());
        await log.NoteAsync(note with { Patients = ["Q-1001"] });
        Assert.NotEmpty(bench.Remarks);
        isOpen = true;
        await log.NoteAsync(note with { Patients = ["Q-1002"] });
        Assert.Equal(1, Assert.Single((await log.ListAsync(new AuditSearch(), default)).Lines).Note.Missed);
        Assert.Empty(bench.FilesWith("Q-100"));
    }

    [Fact]
    public async Task The_longest_list_fits_into_one_sealed_note()
    {
        using var bench = new AuditBench(encrypt: true);
        string[] numbers =
        [
            .. Enumerable.Range(0, AuditNote.MostPatients).Select(n => n.ToString("D64", CultureInfo.InvariantCulture)),
        ];
        await bench.NoteAsync("/exams", numbers);
        // Letters that take three bytes each do not fit: as many as do are kept.
        await bench.NoteAsync("/exams", [.. numbers.Select(number => number.Replace('0', '\u4e00'))]);
        var notes = await bench.ListAsync();
        Assert.Equal(numbers, notes[1].Patients);
        Assert.InRange(notes[0].Patients.Count, 100, AuditNote.MostPatients - 1);
    }

    [Fact]
    public void A_sealed_number_put_into_another_note_does_not_open()
    {
        using var bench = new AuditBench(encrypt: false);
        bench.Enter("Q-1001");
        var toNote = bench.Keys.ToNote(new("Q-1001"));
        var note = new AuditReader("MK", AuditWay.Page).Note(AuditWhat.Record, bench.Time.GetUtcNow());
        var bytes = AuditRecord.Sealed(note, null, [toNote]);
        Assert.Equal(["Q-1001"], AuditRecord.Read(bytes)!.Opened(bench.Keys).Patients);
        bytes[bytes.AsSpan().IndexOf("MK"u8)] = (byte)'X';
        Assert.Equal(
            [Exams.Entries.Sealing.SealedNumbers.Unreadable(toNote.Slot!.Value).Value],
            AuditRecord.Read(bytes)!.Opened(bench.Keys).Patients
        );
        for (var length = 0; length < bytes.Length; length++)
            Assert.Null(AuditRecord.Read(bytes.AsMemory(0, length)));
    }
}
