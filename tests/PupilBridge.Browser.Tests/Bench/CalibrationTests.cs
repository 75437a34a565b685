using System.Text.Json;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using PupilBridge.Instrument;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Bench;

/// <summary>
/// The whole way of a calibration in a browser: a technician types discs in, measures what the page asks for on an instrument whose scales
/// misread, and issues the certificate. What was put into the scales must come out within the certificate's own uncertainty.
/// </summary>
public sealed class CalibrationTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>,
        IDisposable
{
    private const string Serial = "QA-0701";

    /// <summary>The right scale reads 50 µm and 0.4 % too much, the left one 30 µm and 0.3 % too little.</summary>
    private static readonly PerEye<ScaleError> Truth = new() { Right = new(0.050, 1.004), Left = new(-0.030, 0.997) };

    private readonly string folder = Directory.CreateTempSubdirectory("pb-bench-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_known_offset_and_gain_come_out_within_the_certificates_own_uncertainty_and_correct_the_next_exam()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(10));
        await using var lane = new BenchLane(
            Path.Combine(folder, "lane-0"),
            InstrumentModels.QuayA,
            Serial,
            701,
            Truth
        );
        await using var console = await ServedConsole.StartAsync(folder, [lane.Link]);
        await using var visitor = await fixture.Chromium.VisitAsync(console.Address, 1280, 900);
        var page = await SignIn.OpenAsync(visitor, People.Technician, "/bench/discs");
        var stage = new BenchStage(console, lane, page);
        try
        {
            await stage.EnterDiscsAsync();
            await stage.BeginAsync();
            await MeasureAllAsync(stage, patience.Token);
            await stage.IssueAsync();
            await stage.KeepAsync("bench-certificate");

            var certificate = await stage.CertificateAsync();
            foreach (var eye in new[] { Eye.Right, Eye.Left })
                HoldAgainstTruth(certificate, eye);
            await HoldNextExamAsync(console, lane, patience.Token);
            await page.GotoAsync("/bench");
            await stage.KeepAsync("bench-calibrated");
            Assert.Empty(visitor.Problems);
        }
        catch
        {
            output.WriteLine($"The service said:\n{console.Said}");
            output.WriteLine(
                $"{await Screenshots.OfFailureAsync(page, whole: true)} {string.Join("; ", visitor.Problems)}"
            );
            throw;
        }
    }

    /// <summary>All that is asked for; once by the wrong scale, once set aside and measured again.</summary>
    private static async Task MeasureAllAsync(BenchStage stage, CancellationToken cancel)
    {
        for (var i = 0; i < 3; i++)
            await stage.MeasureAskedAsync(cancel);
        await stage.MeasureByOtherScaleAsync(cancel);
        // The rest of the first round, in which every disc is read once by each scale, and one of the second.
        for (var i = 0; i < 5; i++)
            await stage.MeasureAskedAsync(cancel);
        await stage.SetAsideAsync("D4", "right scale (OD)");
        await stage.MeasureAskedAsync(cancel);
        await stage.KeepAsync("bench-run");
        while (await stage.MeasureAskedAsync(cancel))
        {
            // The page asks for the next.
        }

        // Four discs, two scales, three readings each.
        Assert.Equal(24, await stage.DoneAsync());
    }

    /// <summary>
    /// A scale that tells o + g·d of a distance d is corrected by (y − o) / g − y, a line of its own. It must lie within the band of the
    /// certificate, that is within the uncertainty for 95 % that the certificate itself states of its correction, all over the range; an
    /// offset or a slope that was missed would leave it at one of its ends. The hand's scatter follows from a seed, whatever order the run
    /// is in, so that the same readings come each time.
    /// </summary>
    private void HoldAgainstTruth(JsonElement certificate, Eye eye)
    {
        var scale = certificate.GetProperty("scales").GetProperty(eye == Eye.Right ? "right" : "left");
        var (offset, gain) = Truth[eye];
        var band = scale.GetProperty("band").EnumerateArray().ToArray();
        Assert.True(band.Length > 2);
        foreach (var point in band)
        {
            double Of(string name) => point.GetProperty(name).GetDouble();
            var truth = ((Of("indicated") - offset) / gain) - Of("indicated");
            output.WriteLine(
                FormattableString.Invariant(
                    $"{eye} at {Of("indicated"):0.000} mm: {Of("correction"):0.0000} ± {Of("expandedFor95"):0.0000} mm, truth {truth:0.0000}"
                )
            );
            Assert.InRange(Of("correction") - truth, -Of("expandedFor95"), Of("expandedFor95"));
        }

        // Twelve readings that scatter by 15 µm: about 9 µm in the middle for 95 %. Wider than twice that, it would show nothing.
        Assert.InRange(band[band.Length / 2].GetProperty("expandedFor95").GetDouble(), 0.001, 0.02);
    }

    /// <summary>An exam that opens afterwards is corrected: the disc reads as it is, not as the scale tells, and names the certificate.</summary>
    private async Task HoldNextExamAsync(ServedConsole console, BenchLane lane, CancellationToken cancel)
    {
        const double Disc = 4.002;
        await lane.MeasureAsync(Eye.Right, Disc, cancel);
        await lane.Served.WhenAllAcknowledgedAsync(cancel);
        var (exam, certificate) = await NextExamAsync(console, cancel);
        Assert.Equal("1", certificate);
        var shown = await console.AskAsync("exams", "show", exam);
        var size = Assert.Single(shown.GetProperty("sizes").EnumerateArray());
        Assert.True(size.GetProperty("isCalibrated").GetBoolean());
        var told =
            (size.GetProperty("temporalMicrometres").GetInt32() - size.GetProperty("nasalMicrometres").GetInt32())
            / 1000.0;
        var truth = (told - Truth.Right.OffsetMillimetres) / Truth.Right.Gain;
        var read = size.GetProperty("millimetres").GetDouble();
        output.WriteLine(
            FormattableString.Invariant(
                $"next exam: told {told:0.000} mm of a disc of {Disc} mm, read {read:0.0000} mm, truth of what was told {truth:0.0000} mm"
            )
        );
        // The correction is 66 µm; what the calibration leaves of it is within its own band, which is held above.
        Assert.InRange(told - truth, 0.05, 0.08);
        Assert.InRange(read - truth, -0.02, 0.02);
    }

    /// <summary>The exam that opened by itself, and the certificate that it names, out of the program's own table of exams and sizes.</summary>
    private async Task<(string Exam, string Certificate)> NextExamAsync(ServedConsole console, CancellationToken cancel)
    {
        var table = Path.Combine(folder, "sizes.csv");
        for (var tries = 0; tries < 20; tries++)
        {
            await console.AskAsync(
                "calibration",
                "apply",
                "--what-if",
                "--certificate",
                "1",
                "--csv",
                table,
                "--force"
            );
            var lines = await File.ReadAllLinesAsync(table, cancel);
            Assert.Equal(["exam", "opened_at", "calibration"], lines[0].Split(',')[..3]);
            if (lines.Length > 1)
            {
                var cells = Assert.Single(lines[1..]).Split(',');
                return (cells[0], cells[2]);
            }

            await Task.Delay(250, cancel);
        }

        throw new InvalidOperationException("No exam opened by itself after the run.");
    }
}
