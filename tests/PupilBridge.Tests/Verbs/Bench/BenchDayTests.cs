using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Instrument;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Bench;

/// <summary>The service bench by commands, against a running service with an instrument on a pseudo-terminal.</summary>
[SupportedOSPlatform("linux")]
public sealed class BenchDayTests : IDisposable
{
    private const int All = 24;
    private readonly TemporaryFolder folder = new();

    private string Data => folder.At("data");

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_run_outlives_a_killed_service_recovers_the_known_error_and_becomes_a_certificate()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        var technician = new BenchTechnician(instrument, Data);
        long run;
        using (var service = await Serve(instrument))
        {
            await EnterDiscs();
            using var guide = Executable.Start(
                Words("calibration", "run", "--discs", "quay", "--repeats", "3", "--finish", "--who", "TE")
            );
            await guide.Says("is open: calibration of QA-1");
            run = await OpenRun();
            await technician.ReadUntil(run, 5);
            await guide.Says("Now (6 of 24)");
            service.Kill();
            var broken = await guide.Ended();
            Assert.Equal(ExitCode.NoService, broken.Code);
            Assert.Contains($"--resume {run}", broken.Error, StringComparison.Ordinal);
            Assert.Empty(broken.Out);
        }

        using (var again = await Serve(instrument))
        {
            using var guide = Executable.Start(
                Words("calibration", "run", "--resume", Number(run), "--finish", "--who", "TE")
            );
            await guide.Says("Now (6 of 24)");
            await technician.ReadUntil(run, All);
            var ended = await guide.Ended();
            Assert.Equal(ExitCode.Done, ended.Code);
            Assert.Contains("OD (right scale):", ended.Out, StringComparison.Ordinal);
            Assert.Contains("repeatability", ended.Out, StringComparison.Ordinal);
            Assert.Contains($"pupilbridge calibration issue {run}", ended.Out, StringComparison.Ordinal);
        }

        await Issue(run);
        var certificate = await IssuedCertificate();
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            // The correction at the middle of the discs gives the true diameter back, within what the certificate states.
            var budget = certificate.Scales[eye].Budget;
            var indicated = budget.Indicated;
            var truth = eye == Eye.Right ? (indicated - 0.03) / 1.004 : (indicated + 0.02) / 0.996;
            Assert.InRange(budget.Corrected, truth - budget.ExpandedFor95, truth + budget.ExpandedFor95);
            Assert.InRange(budget.ExpandedFor95, 0.001, 0.1);
        }
    }

    [Fact]
    public async Task Typed_lines_set_readings_aside_and_give_the_run_up()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        await EnterDiscs();
        var technician = new BenchTechnician(instrument, Data);
        using var typed = new BlockingLines();
        var guiding = Guide(typed, "calibration", "check", "--discs", "quay", "--disc", "D4", "--who", "TE");
        await Eventually.Is(async () => await OpenRuns() == 1 || guiding.IsCompleted);
        Assert.False(guiding.IsCompleted, guiding.IsCompleted ? (await guiding).Error : "");
        var run = await OpenRun();
        await technician.ReadUntil(run, 1);
        typed.Type("x 1 the disc slipped");
        await Eventually.Is(async () => await State(run, 0) == "set-aside");
        typed.Type("u 1 it did not");
        await Eventually.Is(async () => await State(run, 0) == "counts");
        typed.Type("");
        typed.Type("x 9 no such reading");
        typed.Type("q");
        typed.Type("q the phone rang");
        var ended = await guiding;
        Assert.Equal(ExitCode.Done, ended.Code);
        Assert.Contains("3 readings are still to come", ended.Error, StringComparison.Ordinal);
        Assert.Contains("There is no reading 9", ended.Error, StringComparison.Ordinal);
        Assert.Contains("Say why it is given up", ended.Error, StringComparison.Ordinal);
        Assert.Contains("given-up", ended.Out, StringComparison.Ordinal);
        Assert.Contains("the phone rang", ended.Out, StringComparison.Ordinal);
        Assert.Equal(
            ExitCode.Refused,
            (await Command("calibration", "issue", Number(run), "--yes", "--who", "TE")).Code
        );
        var again = await Command("calibration", "check", "--resume", Number(run), "--who", "TE");
        Assert.Equal(ExitCode.Refused, again.Code);
    }

    [Fact]
    public async Task A_quick_check_is_finished_by_enter_and_shown_in_the_drift()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        await EnterDiscs();
        var technician = new BenchTechnician(instrument, Data);
        using var typed = new BlockingLines();
        var guiding = Guide(typed, "calibration", "check", "--discs", "quay", "--who", "TE");
        await Eventually.Is(async () => await OpenRuns() == 1 || guiding.IsCompleted);
        Assert.False(guiding.IsCompleted, guiding.IsCompleted ? (await guiding).Error : "");
        var run = await OpenRun();
        await technician.ReadUntil(run, 4);
        typed.Type("");
        var ended = await guiding;
        Assert.Equal(ExitCode.Done, ended.Code);
        Assert.Contains("the instrument is not calibrated", ended.Out, StringComparison.Ordinal);
        await Eventually.Is(async () =>
            (await Command("calibration", "drift")).Out.Contains("quick check", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Ctrl_c_leaves_the_run_open_and_says_how_to_go_on()
    {
        await using var instrument = new QuayInstrument(folder.At("quay"));
        using var service = await Serve(instrument);
        using var guide = Executable.Start(Words("calibration", "timing", "--who", "TE"));
        await guide.Says("Run the blocks");
        var run = await OpenRun();
        guide.Signal("INT");
        var left = await guide.Ended();
        Assert.Equal(ExitCode.Interrupted, left.Code);
        Assert.Contains($"pupilbridge calibration timing --resume {run}", left.Error, StringComparison.Ordinal);
        Assert.Equal(
            "open",
            (await new BenchTechnician(instrument, Data).Show(run)).GetProperty("line").GetProperty("state").GetString()
        );
        var wrong = await Command("calibration", "live", "--resume", Number(run), "--who", "TE");
        Assert.Equal(ExitCode.Refused, wrong.Code);
        Assert.Contains("timing --resume", wrong.Error, StringComparison.Ordinal);
    }

    private async Task Issue(long run)
    {
        var asked = await Command("calibration", "issue", Number(run), "--who", "TE");
        Assert.Equal(ExitCode.Usage, asked.Code);
        Assert.Contains("Draft of a calibration, not a certificate", asked.Out, StringComparison.Ordinal);
        Assert.Contains("--yes", asked.Error, StringComparison.Ordinal);
        var issued = await Command("calibration", "issue", Number(run), "--yes", "--who", "TE");
        Assert.True(issued.Code == ExitCode.Done, issued.Error);
        Assert.Contains("Issued: certificate 1.", issued.Out, StringComparison.Ordinal);
        var twice = await Command("calibration", "issue", Number(run), "--yes", "--who", "TE");
        Assert.Equal(ExitCode.Refused, twice.Code);
        Assert.Contains("Certificate 1 was issued", twice.Error, StringComparison.Ordinal);
        var listed = await Command("journal", "list");
        Assert.True(listed.Code == ExitCode.Done, listed.Error);
        Assert.Contains("\"kind\":\"calibration-issued\"", listed.Out, StringComparison.Ordinal);
    }

    private async Task<Certificate> IssuedCertificate()
    {
        var shown = await Command("calibration", "certificate", "1");
        Assert.Contains(
            "Calibrated by certificate 1",
            shown.Out + (await Command("calibration", "list")).Out,
            StringComparison.Ordinal
        );
        Assert.Equal(ExitCode.NotFound, (await Command("calibration", "certificate", "2")).Code);
        var json = await Command("calibration", "certificate", "1", "--json");
        var certificate = CertificateText.Read(json.Out);
        Assert.Equal(CertificateText.Write(certificate), json.Out.TrimEnd('\n'));
        return certificate;
    }

    private async Task EnterDiscs()
    {
        using var table = new TableFile(
            "name,diameter_mm,standard_uncertainty_mm",
            "D2,2.000,0.002",
            "D4,4.000,0.002",
            "D6,6.000,0.002",
            "D8,8.000,0.002"
        );
        var added = await Command(
            "calibration",
            "discs",
            "add",
            table.Path,
            "--name",
            "quay",
            "--certificate",
            "D-1",
            "--issuer",
            "the laboratory",
            "--certified",
            "2026-01-15",
            "--who",
            "TE"
        );
        Assert.True(added.Code == ExitCode.Done, added.Error);
    }

    private Task<Outcome> Guide(BlockingLines typed, params string[] words) =>
        Task.Run(() => Invoked.Run(new Dictionary<string, string?>(), Words(words), typed, default));

    private async Task<long> OpenRun() => (await Bench()).First(run => run is not null)!.Value;

    private async Task<int> OpenRuns() => (await Bench()).Count(run => run is not null);

    private async Task<string?> State(long run, int reading)
    {
        var shown = await Command("calibration", "show", Number(run), "--json");
        using var document = JsonDocument.Parse(shown.Out);
        return document.RootElement.GetProperty("readings")[reading].GetProperty("state").GetString();
    }

    private async Task<List<long?>> Bench()
    {
        var listed = await Command("calibration", "list", "--json");
        Assert.True(listed.Code == ExitCode.Done, listed.Error);
        using var document = JsonDocument.Parse(listed.Out);
        return
        [
            .. document
                .RootElement.GetProperty("instruments")
                .EnumerateArray()
                .Select(one => one.GetProperty("openRun"))
                .Select(run => run.ValueKind == JsonValueKind.Null ? (long?)null : run.GetInt64()),
        ];
    }

    private Task<Outcome> Command(params string[] words) => Invoked.Run(Words(words));

    private string[] Words(params string[] words) => [.. words, "--data", Data];

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    private async Task<Executable> Serve(QuayInstrument instrument)
    {
        var service = Executable.Start("serve", "--data", Data, "--port", instrument.Port);
        await service.Says("Listening on");
        await instrument.Greeted();
        await instrument.AllAcknowledged();
        await instrument.DialTurned(InstrumentMode.Measure);
        return service;
    }
}
