using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Instrument;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary>
/// The commands of an exam against a running service with an instrument on a pseudo-terminal, and the same commands when
/// the service was killed.
/// </summary>
[SupportedOSPlatform("linux")]
public sealed class ExamDayTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private string Data => folder.At("data");

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_person_opens_an_exam_says_what_holds_and_finishes_it()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        Assert.Equal(ExitCode.Done, (await Command("exam", "open", "--who", "MK")).Code);
        var attached = await Command("exam", "attach", "Q-1001", "--who", "MK");
        Assert.Equal(ExitCode.Done, attached.Code);
        Assert.Contains("No patient Q-1001 has been entered yet", attached.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Command("room", "dim", "--who", "MK")).Code);
        Assert.Equal(ExitCode.Done, (await Command("eye-status", "OS", "drops", "--who", "MK")).Code);

        var early = await Command("grade", "direct", "OD", "3", "--who", "MK");
        Assert.Equal(ExitCode.Refused, early.Code);
        Assert.Contains("complete stimulus", early.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Command("exam", "ready", "--who", "MK")).Code);

        // Lists are read from the exam log, which follows the journal by a moment; until then the entry itself is refused.
        var exam = await OnlyExam(status: "ready-for-review");
        Assert.Equal(ExitCode.NotFound, (await Command("room", "dim", "--who", "MK")).Code);
        Assert.Equal("Q-1001", exam.GetProperty("patient").GetString());
        var number = exam.GetProperty("exam").GetInt64().ToString(System.Globalization.CultureInfo.InvariantCulture);
        var shown = await Command("exams", "show", number);
        Assert.Contains("OS drops (MK)", shown.Out, StringComparison.Ordinal);
        var chart = await Command("exams", "chart", number, "--json");
        using var document = JsonDocument.Parse(chart.Out);
        Assert.Contains("not examined", document.RootElement.GetProperty("line").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_and_rebuild_work_beside_the_running_service()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        Assert.Equal(ExitCode.Done, (await Command("exam", "open", "--patient", "Q-1001", "--who", "MK")).Code);
        var verified = await Command("journal", "verify", "--json");
        Assert.Equal(ExitCode.Done, verified.Code);
        using (var document = JsonDocument.Parse(verified.Out))
        {
            var journal = document.RootElement.GetProperty("journal");
            Assert.True(journal.GetProperty("besideRunningService").GetBoolean());
            Assert.True(document.RootElement.GetProperty("examLog").GetProperty("isSame").GetBoolean());
        }

        var rebuilt = await Command("journal", "rebuild", "--json");
        Assert.Equal(ExitCode.Done, rebuilt.Code);
        using (var document = JsonDocument.Parse(rebuilt.Out))
        {
            Assert.True(Directory.Exists(document.RootElement.GetProperty("oldFiles").GetString()));
        }

        await OnlyExam();
        Assert.Equal(ExitCode.Done, (await Command("journal", "verify")).Code);
        var listed = await Command("journal", "list");
        Assert.Contains(listed.Lines, line => line.Contains("exam-opened", StringComparison.Ordinal));
    }

    [Fact]
    public async Task After_a_kill_entries_go_on_without_a_service_and_the_next_service_replaces_the_stale_socket()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        string number;
        using (var service = await Serve(instrument))
        {
            Assert.Equal(ExitCode.Done, (await Command("exam", "open", "--patient", "Q-1001", "--who", "MK")).Code);
            number = (await OnlyExam())
                .GetProperty("exam")
                .GetInt64()
                .ToString(System.Globalization.CultureInfo.InvariantCulture);
            service.Kill();
            await service.Ended();
        }

        Assert.True(File.Exists(Path.Combine(Data, "run", "desk.sock")));
        var offline = await Command("grade", "slow-to-dilate", "OD", "--exam", number, "--who", "MK");
        Assert.Equal(ExitCode.Refused, offline.Code);
        Assert.Contains("no light has gone away", offline.Error, StringComparison.Ordinal);
        var status = await Command("eye-status", "OD", "patch", "--exam", number, "--who", "MK");
        Assert.Equal(ExitCode.Done, status.Code);
        Assert.Equal(ExitCode.Done, (await Command("journal", "verify")).Code);

        using var again = await Serve(instrument);
        var shown = await Command("exams", "show", number);
        Assert.Contains("OD patch (MK)", shown.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Watch_prints_json_lines_that_follow_the_dial_and_ends_with_ctrl_c()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        using var watch = Executable.Start("watch", "--json", "--data", Data);
        await watch.Says("\"mode\":\"idle\"");
        instrument.TurnDial(InstrumentMode.Measure);
        await watch.Says("\"mode\":\"measure\"");
        watch.Signal("INT");
        var outcome = await watch.Ended();
        Assert.Equal(ExitCode.Done, outcome.Code);
        foreach (var line in outcome.Lines)
        {
            using var document = JsonDocument.Parse(line);
            var told = document.RootElement.GetProperty("instrument").GetProperty("instrument").GetString();
            Assert.Equal(instrument.Serial, told);
        }
    }

    [Fact]
    public async Task A_watcher_is_told_when_the_service_ends()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        using var watch = Executable.Start("watch", "--json", "--data", Data);
        await watch.Says("\"mode\":");
        service.Signal("TERM");
        var outcome = await watch.Ended();
        Assert.Equal(ExitCode.NoService, outcome.Code);
        Assert.Contains("The service has ended.", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("watch")]
    [InlineData("watch", "--json")]
    public async Task Without_a_service_watch_says_how_to_start_one(params string[] words)
    {
        var outcome = await Command(words);
        Assert.Equal(ExitCode.NoService, outcome.Code);
        Assert.Contains("pupilbridge serve", outcome.Error, StringComparison.Ordinal);
    }

    /// <summary>The one exam, once it is listed: the exam log, from which lists are read, follows by a moment.</summary>
    private async Task<JsonElement> OnlyExam(string? status = null)
    {
        var exams = new List<JsonElement>();
        await Eventually.Is(async () =>
        {
            var listed = await Command("exams", "list", "--json");
            Assert.Equal(ExitCode.Done, listed.Code);
            using var document = JsonDocument.Parse(listed.Out);
            exams = [.. document.RootElement.GetProperty("exams").EnumerateArray().Select(exam => exam.Clone())];
            return exams.Count > 0 && (status is null || exams[0].GetProperty("status").GetString() == status);
        });
        return Assert.Single(exams);
    }

    private Task<Outcome> Command(params string[] words) => Invoked.Run([.. words, "--data", Data]);

    private async Task<Executable> Serve(QuayInstrument instrument)
    {
        var service = Executable.Start("serve", "--data", Data, "--port", instrument.Port);
        await service.Says("Listening on");
        await instrument.Greeted();
        await instrument.AllAcknowledged();
        return service;
    }
}
