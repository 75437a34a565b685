using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.Audit;
using PupilBridge.Journal;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Whoever sees a patient's data, by whatever way, stands in the audit stream; so does whoever was refused.</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class AuditTrailTests(AttackedService service)
{
    /// <summary>Pages that show patients; EXAM and PATIENT stand for those of the folder.</summary>
    private static readonly string[] Pages =
    [
        "/exams",
        "/exams/EXAM",
        "/exams/EXAM/report.pdf",
        "/exams/EXAM/report.html",
        "/exams/EXAM/report.txt",
        "/patients",
        "/patients/PATIENT",
        "/review",
        "/day",
    ];

    /// <summary>Routes of the web API with a scope for patients' data that show none: which forms there are.</summary>
    private static readonly string[] ShowNobody = ["/api/v1/exams/{number}/exports"];

    [Fact]
    public async Task Every_page_and_every_route_that_shows_patients_leaves_a_note_of_who_saw_whom()
    {
        var visitor = await service.SignedInAsync(AttackedService.Clinician);
        var (exam, patient) = await FirstAsync(visitor);
        var paths = Pages
            .Concat(await RoutesAsync(visitor))
            .Select(path =>
                path.Replace("EXAM", exam, StringComparison.Ordinal)
                    .Replace("PATIENT", patient, StringComparison.Ordinal)
            )
            .ToList();
        Assert.True(paths.Count >= 18, string.Join('\n', paths));
        foreach (var path in paths)
            Assert.Equal((path, HttpStatusCode.OK), (path, (await visitor.GetAsync(path)).Status));
        var notes = await NotesAsync("--person", AttackedService.Clinician);
        Assert.All(
            paths,
            path =>
                Assert.Contains(notes, note => note.Path == path.Split('?')[0] && note.Who == AttackedService.Clinician)
        );
        var record = notes.First(note => note.Path == $"/exams/{exam}/report.pdf");
        Assert.Equal((exam, AuditWay.Page, "127.0.1."), ($"{record.Exam}", record.Way, record.From![..8]));
        Assert.Equal([patient], record.Patients);
        // Whom they saw is sealed, also where the number stands in a path.
        foreach (var file in Directory.EnumerateFiles(Path.Combine(service.DataFolder, "audit", "journal"), "*.pbj"))
            Assert.True((await BytesAsync(file)).AsSpan().IndexOf(Encoding.UTF8.GetBytes(patient)) < 0, file);
    }

    [Fact]
    public async Task Commands_and_programs_are_noted_too_and_sign_ins_and_refusals_stand_beside_them()
    {
        using var visitor = await service.FreshAsync("F7");
        var (exam, patient) = await FirstAsync(visitor);
        await AttackedService.RunAsync("", "exams", "show", exam, "--data", service.DataFolder);
        await service.Raw.SendAsync(
            $"GET /api/v1/exams/{exam}/record HTTP/1.1\r\nHost: {service.Host}\r\nAuthorization: Bearer {service.Key}\r\nConnection: close\r\n\r\n"
        );
        var technician = await service.SignedInAsync(AttackedService.Technician);
        Assert.Equal(HttpStatusCode.Forbidden, (await technician.GetAsync("/exams")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await technician.GetAsync("/api/v1/exams")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await technician.GetAsync("/audit")).Status);
        var notes = await NotesAsync();
        Assert.Contains(notes, note => note.Way == AuditWay.Command && $"{note.Exam}" == exam);
        Assert.Contains(notes, note => note.Who == "registry (key)" && note.Path == $"/api/v1/exams/{exam}/record");
        Assert.Contains(notes, note => note.Who == "F7" && note.What == AuditWhat.SignedIn);
        foreach (var path in new[] { "/exams", "/api/v1/exams", "/audit" })
            Assert.Contains(
                notes,
                note => note.What == AuditWhat.NotAllowed && note.Who == AttackedService.Technician && note.Path == path
            );
        var administrator = await service.SignedInAsync(AttackedService.Administrator);
        var page = await administrator.GetAsync($"/audit?patient={patient}");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains(patient, page.Text, StringComparison.Ordinal);
        Assert.Contains("registry (key)", page.Text, StringComparison.Ordinal);
        Assert.Empty((await NotesAsync("--patient", "Q-0000")));
        Assert.True(
            JournalVerifier
                .Verify(RealDisk.Instance, new JournalFolder(Path.Combine(service.DataFolder, "audit")))
                .IsSound
        );
    }

    private static async Task<byte[]> BytesAsync(string path)
    {
        var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        await using (file)
        {
            var bytes = new byte[file.Length];
            await file.ReadExactlyAsync(bytes);
            return bytes;
        }
    }

    private static async Task<(string Exam, string Patient)> FirstAsync(Visitor visitor)
    {
        var text = (await visitor.GetAsync("/api/v1/exams?limit=1")).Text;
        return (
            Regex.Match(text, "\"exam\":(\\d+)").Groups[1].Value,
            Regex.Match(text, "\"patient\":\"([^\"]+)\"").Groups[1].Value
        );
    }

    /// <summary>Every route of the web API whose scope opens patients' data, out of its own description.</summary>
    private static async Task<IEnumerable<string>> RoutesAsync(Visitor visitor)
    {
        using var document = JsonDocument.Parse((await visitor.GetAsync("/api/v1/openapi.json")).Text);
        return
        [
            .. document
                .RootElement.GetProperty("paths")
                .EnumerateObject()
                .Where(path => path.Value.TryGetProperty("get", out var get) && IsAboutPatients(get))
                .Select(path => path.Name)
                .Where(path => !ShowNobody.Contains(path))
                .Select(path =>
                    path.Replace("{patient}", "PATIENT", StringComparison.Ordinal)
                        .Replace("{table}", "exams", StringComparison.Ordinal)
                        .Replace("{number}", "EXAM", StringComparison.Ordinal)
                        .Replace("{exam}", "EXAM", StringComparison.Ordinal)
                ),
        ];
    }

    // A signed record is needed for a transaction; the folder's exam is none.
    private static bool IsAboutPatients(JsonElement get) =>
        get.TryGetProperty("description", out var words)
        && (
            words.GetString()!.Contains("Scope: records", StringComparison.Ordinal)
            || words.GetString()!.Contains("Scope: patients", StringComparison.Ordinal)
        )
        && !get.GetRawText().Contains("transaction", StringComparison.OrdinalIgnoreCase);

    private async Task<List<AuditNote>> NotesAsync(params string[] words)
    {
        var text = await AttackedService.RunAsync(
            "",
            ["audit", "list", "--json", "--limit", "500", .. words, "--data", service.DataFolder]
        );
        var web = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        using var json = JsonDocument.Parse(text);
        return
        [
            .. json
                .RootElement.GetProperty("lines")
                .EnumerateArray()
                .Select(line => line.GetProperty("note").Deserialize<AuditNote>(web)!),
        ];
    }
}
