using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Backups;

/// <summary>Backups of a running service with an instrument, and what becomes of them on a second machine, all through the executable.</summary>
[SupportedOSPlatform("linux")]
public sealed class SecondMachineTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public SecondMachineTests() => File.WriteAllText(PassPhrase, "quay crane rope tide seven\n");

    private string Data => folder.At("data");

    private string Second => folder.At("second");

    private string Safe => folder.At("safe");

    private string PassPhrase => folder.At("pass-phrase");

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_backup_beside_the_service_is_the_same_journal_and_exam_log_elsewhere_and_an_older_one_has_its_gap()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using (var service = await Serve(Data, instrument))
        {
            Assert.Equal(
                ExitCode.Done,
                (await Run("exam", "open", "--patient", "Q-1001", "--who", "MK", "--data", Data)).Code
            );
            await instrument.DialTurned(InstrumentMode.Measure);
            var beside = await BackUp();
            Assert.True(beside.GetProperty("wasOpened").GetBoolean());
            await IsNoted(Data, "backup", Safe, 1);
            await instrument.DialTurned(InstrumentMode.Sequence);
            await instrument.DialTurned(InstrumentMode.Measure);
            service.Signal("TERM");
            Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
        }

        var last = await BackUp();
        await IsNoted(Data, "backup", Safe, 2);
        var head = await Json("journal", "head", "--json", "--data", Data);
        Assert.Equal(head.GetProperty("head").GetString(), last.GetProperty("head").GetString());
        await TheSameElsewhere(head.GetProperty("head").GetString()!);
        await TheOlderOneHasItsGap(instrument);
    }

    [Fact]
    public async Task What_cannot_be_restored_is_refused_in_words_and_leaves_nothing()
    {
        WrittenJournal.Write(Data, WrittenJournal.Morning);
        Assert.Equal(ExitCode.NotFound, (await Run("restore", Safe, "--data", Second)).Code);
        Assert.Equal(ExitCode.Done, (await Run("backup", Safe, "--unencrypted", "--data", Data)).Code);
        Assert.Equal(
            ExitCode.Refused,
            (await Run("backup", folder.At("data", "inside"), "--unencrypted", "--data", Data)).Code
        );
        Assert.Equal(
            ExitCode.Usage,
            (await Run("backup", Safe, "--unencrypted", "--pass-phrase-file", PassPhrase, "--data", Data)).Code
        );
        Assert.Equal(
            ExitCode.Refused,
            (await Run("backup", Safe, "--pass-phrase-file", PassPhrase, "--data", Data)).Code
        );
        Assert.Equal(ExitCode.Refused, (await Run("restore", Safe, "--data", Data)).Code);
        var other = await Run("restore", Safe, "--data", Second, "--head", "4:" + new string('a', 64));
        Assert.Equal(ExitCode.Damaged, other.Code);
        Assert.Contains("written down elsewhere", other.Error, StringComparison.Ordinal);
        var piece = Directory.GetFiles(Path.Combine(Safe, "pieces"), "segment-*").Single();
        File.Delete(piece);
        var missing = await Run("restore", Safe, "--data", Second);
        Assert.Equal(ExitCode.Damaged, missing.Code);
        Assert.Contains(Path.GetFileName(piece), missing.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Damaged, (await Run("backup", "verify", Safe)).Code);
        Assert.False(Directory.Exists(Second));
        var again = await Run("backup", Safe, "--unencrypted", "--keep", "1", "--data", Data);
        Assert.Equal(ExitCode.Done, again.Code);
        Assert.Equal(ExitCode.Done, (await Run("backup", "verify", Safe)).Code);
        Assert.Single((await Run("backup", "list", Safe, "--json")).Out.Split("\"number\"").Skip(1));
    }

    private async Task TheSameElsewhere(string head)
    {
        var restored = await Json(
            "restore",
            Safe,
            "--pass-phrase-file",
            PassPhrase,
            "--head",
            head,
            "--json",
            "--data",
            Second
        );
        Assert.Equal(head, restored.GetProperty("head").GetString());
        var source = await Json("journal", "verify", "--json", "--data", Data);
        var second = await Json("journal", "verify", "--json", "--data", Second);
        foreach (var verified in (JsonElement[])[source, second])
        {
            Assert.True(verified.GetProperty("isSound").GetBoolean());
            Assert.Equal(head, verified.GetProperty("journal").GetProperty("head").GetString());
        }

        var digest = source.GetProperty("examLog").GetProperty("inExamLog").GetString();
        Assert.Equal(digest, second.GetProperty("examLog").GetProperty("inExamLog").GetString());
        Assert.StartsWith(
            restored.GetProperty("examLog").GetProperty("digest").GetString()!,
            digest,
            StringComparison.Ordinal
        );
        await IsNoted(Second, "backup", Safe, 2);
        await IsNoted(Second, "restore", $"2, {Safe}", 1);
        Directory.Delete(Second, recursive: true);
    }

    private async Task TheOlderOneHasItsGap(QuayInstrument instrument)
    {
        var older = await Json(
            "restore",
            Safe,
            "--backup",
            "1",
            "--pass-phrase-file",
            PassPhrase,
            "--json",
            "--data",
            Second
        );
        var point = older.GetProperty("head").GetString()!;
        // It is a point of the journal that went on.
        Assert.Equal(ExitCode.Done, (await Run("journal", "verify", "--head", point, "--data", Data)).Code);
        using var service = await Serve(Second, instrument);
        await instrument.DialTurned(InstrumentMode.Idle);
        service.Signal("TERM");
        Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
        var listed = await Run("journal", "list", "--data", Second);
        var gap = Assert.Single(listed.Lines, line => line.Contains("\"events-lost\"", StringComparison.Ordinal));
        Assert.Contains("missing-from-journal", gap, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Run("journal", "verify", "--data", Second)).Code);
    }

    /// <summary>Who made or restored a backup, and where, stands in the audit trail; what opens it does not.</summary>
    private async Task IsNoted(string data, string what, string subject, int times)
    {
        var listed = await Json("audit", "list", "--json", "--limit", "500", "--data", data);
        var notes = listed
            .GetProperty("lines")
            .EnumerateArray()
            .Select(line => line.GetProperty("note"))
            .Where(note => note.GetProperty("what").GetString() == what)
            .ToList();
        Assert.Equal(times, notes.Count);
        Assert.All(notes, note => Assert.Equal(subject, note.GetProperty("subject").GetString()));
        Assert.All(
            notes,
            note => Assert.Equal($"{Environment.UserName} (command)", note.GetProperty("who").GetString())
        );
        Assert.DoesNotContain("quay crane rope", listed.GetRawText(), StringComparison.Ordinal);
        var report = JournalVerifier.Verify(RealDisk.Instance, new JournalFolder(Path.Combine(data, "audit")));
        Assert.True(report.IsSound, string.Join('\n', report.Problems));
    }

    private Task<JsonElement> BackUp() =>
        Json("backup", Safe, "--pass-phrase-file", PassPhrase, "--json", "--data", Data);

    private static Task<Outcome> Run(params string[] words) => Executable.Run(words);

    private static async Task<JsonElement> Json(params string[] words)
    {
        var outcome = await Run(words);
        Assert.True(outcome.Code == ExitCode.Done, $"{string.Join(' ', words)}: {outcome.Error}{outcome.Out}");
        using var document = JsonDocument.Parse(outcome.Out);
        return document.RootElement.Clone();
    }

    private static async Task<Executable> Serve(string data, QuayInstrument instrument)
    {
        var service = Executable.Start("serve", "--data", data, "--port", instrument.Port);
        await service.Says("Listening on");
        await instrument.Greeted();
        await instrument.AllAcknowledged();
        return service;
    }
}
