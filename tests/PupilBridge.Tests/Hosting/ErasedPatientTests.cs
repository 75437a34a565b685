using System.Globalization;
using System.Runtime.Versioning;
using System.Text;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary>
/// A patient who was examined, looked at and erased through the executable: the number stands in no byte of the data folder, and the audit
/// trail says under the mark of the exams that somebody looked.
/// </summary>
[SupportedOSPlatform("linux")]
public sealed class ErasedPatientTests : IDisposable
{
    private const string Number = "Q-1001-ERASEME";
    private readonly TemporaryFolder folder = new();

    private string Data => folder.At("data");

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("Protection:Encrypt=true", "Bridge:Sealing=when-keyed")]
    [InlineData("Protection:Encrypt=false", "Bridge:Sealing=always")]
    public async Task No_byte_of_the_data_folder_tells_the_number_and_the_audit_trail_has_the_mark(
        string encrypt,
        string sealing
    )
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        string mark;
        using (var service = await Serve(instrument, encrypt, sealing))
        {
            var exam = await ExamineAsync();
            Assert.Equal(ExitCode.Done, (await Command("exams", "show", exam)).Code);
            Assert.Equal(ExitCode.Done, (await Command("patients", "history", Number)).Code);
            Assert.NotEmpty(await NotesAsync(Number));
            var erased = await Command([
                "patients",
                "erase",
                Number,
                "--reason",
                "asked for",
                "--ordered-by",
                "DPO",
                "--who",
                "AD",
                "--yes",
            ]);
            Assert.True(erased.Code == ExitCode.Done, erased.Error);
            mark = await MarkOf(exam);
            await NothingIsLeft(mark);
            // Somebody asks for the number again.
            await Command("patients", "history", Number);
            await Command("patients", "erase", Number, "--reason", "x", "--ordered-by", "DPO", "--who", "AD", "--yes");
            await NothingIsLeft(mark);
            service.Signal("TERM");
            Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
        }

        await NothingIsLeft(mark);
        using (var again = await Serve(instrument, encrypt, sealing))
        {
            await NothingIsLeft(mark);
            again.Signal("TERM");
            Assert.Equal(ExitCode.Done, (await again.Ended()).Code);
        }

        Assert.Equal(ExitCode.Done, (await Command("journal", "verify")).Code);
        Assert.Equal(ExitCode.Done, (await Command("audit", "verify")).Code);
        await AlterOneNote();
        var altered = await Command("audit", "verify");
        Assert.Equal(ExitCode.Damaged, altered.Code);
        Assert.Contains("DAMAGE", altered.Out, StringComparison.Ordinal);
    }

    private async Task AlterOneNote()
    {
        var first = Directory
            .EnumerateFiles(folder.At("data", "audit", "journal"), "*.pbj")
            .Order(StringComparer.Ordinal)
            .First();
        var bytes = await File.ReadAllBytesAsync(first);
        // Within the payload of the first record, behind the segment's header and the record's.
        bytes[256 + 56 + 4] ^= 1;
        await File.WriteAllBytesAsync(first, bytes);
    }

    private async Task<string> ExamineAsync()
    {
        Assert.Equal(ExitCode.Done, (await Command("exam", "open", "--patient", Number, "--who", "MK")).Code);
        Assert.Equal(ExitCode.Done, (await Command("exam", "ready", "--who", "MK")).Code);
        var exam = "";
        await Eventually.Is(async () =>
        {
            using var listed = JsonDocument.Parse((await Command("exams", "list", "--json")).Out);
            var exams = listed.RootElement.GetProperty("exams");
            if (exams.GetArrayLength() != 1 || exams[0].GetProperty("status").GetString() != "ready-for-review")
                return false;
            exam = exams[0].GetProperty("exam").GetInt64().ToString(CultureInfo.InvariantCulture);
            return true;
        });
        return exam;
    }

    private async Task<string> MarkOf(string exam)
    {
        using var shown = JsonDocument.Parse((await Command("exams", "show", exam, "--json")).Out);
        var mark = shown.RootElement.GetProperty("summary").GetProperty("patient").GetString()!;
        Assert.StartsWith("erased-", mark, StringComparison.Ordinal);
        return mark;
    }

    private async Task NothingIsLeft(string mark)
    {
        foreach (var path in Directory.EnumerateFiles(Data, "*", SearchOption.AllDirectories).Where(IsFile))
            Assert.True(Bytes(path).AsSpan().IndexOf(Encoding.UTF8.GetBytes(Number)) < 0, path);
        Assert.Empty(await NotesAsync(Number));
        var notes = await NotesAsync(mark);
        Assert.Superset(
            new HashSet<string> { "exam", "exams", "history", "erase" },
            notes.Select(note => note.GetProperty("what").GetString()!).ToHashSet()
        );
        Assert.DoesNotContain(Number, (await Command("audit", "list", "--limit", "500")).Out, StringComparison.Ordinal);
    }

    private async Task<List<JsonElement>> NotesAsync(string patient)
    {
        var listed = await Command("audit", "list", "--patient", patient, "--limit", "500", "--json");
        Assert.True(listed.Code == ExitCode.Done, listed.Error);
        using var page = JsonDocument.Parse(listed.Out);
        return
        [
            .. page.RootElement.GetProperty("lines").EnumerateArray().Select(line => line.GetProperty("note").Clone()),
        ];
    }

    /// <summary>No lock, which cannot be opened beside its holder, and no socket.</summary>
    private static bool IsFile(string path) =>
        !Path.GetFileName(path).StartsWith("lock", StringComparison.Ordinal)
        && !path.EndsWith(".sock", StringComparison.Ordinal);

    private static byte[] Bytes(string path)
    {
        try
        {
            using var file = new FileStream(
                path,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite | FileShare.Delete
            );
            using var all = new MemoryStream();
            file.CopyTo(all);
            return all.ToArray();
        }
        catch (FileNotFoundException)
        {
            // The running service replaced it meanwhile.
            return [];
        }
    }

    private Task<Outcome> Command(params string[] words) => Invoked.Run([.. words, "--data", Data]);

    private async Task<Executable> Serve(QuayInstrument instrument, string encrypt, string sealing)
    {
        var service = Executable.Start([
            "serve",
            "--data",
            Data,
            "--port",
            instrument.Port,
            "--set",
            encrypt,
            "--set",
            sealing,
        ]);
        await service.Says("Listening on");
        await instrument.Greeted();
        await instrument.AllAcknowledged();
        return service;
    }
}
