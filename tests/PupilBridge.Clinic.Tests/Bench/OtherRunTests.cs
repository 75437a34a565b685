using PupilBridge.Clinic.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Bench;

/// <summary>Quick checks and their drift, the timing of stimuli, studies on a person, lamps.</summary>
public sealed class OtherRunTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    public void Dispose() => clinic.Dispose();

    [Fact]
    public async Task A_quick_check_is_held_against_the_calibration_in_force()
    {
        PerEye<(double, double)> error = new() { Right = (0.05, 1), Left = (0.05, 1) };
        await clinic.CalibrateAsync(error);
        var run = (await clinic.RecordedAsync(clinic.Begin("quick-check"))).Exam!.Value;
        // Since then the right scale moved by 0.2 mm.
        var view = await clinic.FollowAsync(run, new() { Right = (0.25, 1), Left = (0.05, 1) });
        await clinic.CountsAsync(clinic.End(run));

        // The disc next to the middle of the range: 5.001 mm.
        Assert.All(view.Readings, reading => Assert.Equal("D4", reading.Disc));
        Assert.Equal(4, view.Done);
        Assert.Equal(("fail", "pass"), (view.Scales!.Right.Statement, view.Scales.Left.Statement));
        Assert.InRange(view.Scales.Right.Discs[0].ErrorMillimetres, 0.18, 0.22);
    }

    [Fact]
    public async Task Daily_checks_make_a_drift_chart_that_warns_before_the_limit()
    {
        await clinic.CountsAsync(clinic.Discs());
        for (var day = 0; day < 10; day++)
        {
            var run = (await clinic.RecordedAsync(clinic.Begin("quick-check"))).Exam!.Value;
            await clinic.FollowAsync(run, new() { Right = (0.008 * day, 1), Left = (0, 1) });
            await clinic.CountsAsync(clinic.End(run));
            clinic.House.WriteLog();
            clinic.Instrument.Wait(TimeSpan.FromDays(1));
        }

        var drift = (await clinic.Bench.DriftAsync(Support.Clinic.Serial, default))!;

        Assert.Equal(10, drift.Offsets.Right.Points.Count);
        Assert.All(drift.Offsets.Right.Points, point => Assert.True(point.IsQuickCheck));
        Assert.Equal(("warning", "as-usual"), (drift.Offsets.Right.State, drift.Offsets.Left.State));
        Assert.NotNull(drift.Offsets.Right.Centre);
    }

    [Fact]
    public async Task A_home_that_wanders_shows_in_ordinary_exams()
    {
        foreach (var off in new[] { 0, 20, 40 })
        {
            await clinic.OpenAsync();
            clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
            clinic.House.Add(clinic.Instrument.Rest(Eye.Right, off));
            clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_000));
            clinic.House.Add(clinic.Instrument.Rest(Eye.Right, off));
        }

        clinic.House.WriteLog();
        var drift = (await clinic.Bench.DriftAsync(Support.Clinic.Serial, default))!;

        Assert.Equal([0, 0.020, 0.040], drift.Homes.Right.Points.Select(point => point.Value));
        Assert.Empty(drift.Homes.Left.Points);
    }

    [Fact]
    public async Task A_timing_run_shows_dwells_that_are_off_and_goes_into_the_certificate()
    {
        var run = (await clinic.RecordedAsync(clinic.Begin("timing"))).Exam!.Value;
        clinic.House.Add(clinic.Instrument.DirectBlock());
        clinic.House.Add(clinic.Instrument.SwingBlock(Block.SwingShort, 1000));
        clinic.House.Add(clinic.Instrument.SwingBlock(Block.SwingLong, 3300));
        // Measuring again after the swinging blocks ends an exam, not a run.
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_000));
        await clinic.CountsAsync(clinic.End(run));
        clinic.House.WriteLog();

        var view = (await clinic.Bench.ShowRunAsync(run, default))!;

        Assert.Equal(6, view.Timing.Count);
        Assert.All(
            view.Timing.Where(line => line.Block == "swing-long"),
            line => Assert.Equal("too-long", line.Verdict)
        );
        Assert.All(view.Timing.Where(line => line.Block != "swing-long"), line => Assert.Equal("within", line.Verdict));
        Assert.Single(view.Readings, reading => reading.State == "not-asked");

        await clinic.CalibrateAsync(new() { Right = (0, 1), Left = (0, 1) });
        var certificate = Exams.Bench.Certificates.CertificateText.Read(
            (await clinic.Bench.ShowCertificateAsync(1, default))!.Text
        );
        Assert.Contains($"run {run}", certificate.Timing!.Source, StringComparison.Ordinal);
        Assert.Contains(certificate.Timing.Eyes, eye => eye is { Block: "swing-long", Verdict: "too-long" });
    }

    [Fact]
    public async Task A_study_on_a_person_counts_for_later_exams_once_it_is_adopted()
    {
        var run = (await clinic.RecordedAsync(clinic.Begin("live-repeatability", 3))).Exam!.Value;
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        for (var turn = 0; ; turn++)
        {
            var view = (await clinic.Bench.ShowRunAsync(run, default))!;
            if (view.Asked is not { } asked)
            {
                break;
            }

            await clinic.CountsAsync(clinic.Light(run, asked.Light!));
            var size = (asked.Light == "dim" ? 6_000 : 4_000) + (40 * ((turn / 2 % 3) - 1));
            clinic.House.Add(clinic.Instrument.Mark(asked.Eye == "OD" ? Eye.Right : Eye.Left, size));
        }

        Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Adopt(run)));
        await clinic.CountsAsync(clinic.End(run), Adopt(run));

        // Three settings −40, 0 and +40 µm: a standard deviation of 40 µm in each series.
        var found = (await clinic.Bench.ShowRunAsync(run, default))!.Live!;
        Assert.Equal(0.040, found.WithinMillimetres!.Value, 9);
        Assert.True(found.IsAdopted);
        var exam = clinic.Exam(await clinic.OpenAsync());
        Assert.Equal(
            (40, true),
            (exam.Profile.Captures.SettingRepeatability.Value, exam.Profile.Captures.SettingRepeatabilityIsMeasured)
        );
        Assert.Equal(run, exam.Repeatability!.Run.Value);
    }

    [Fact]
    public async Task Lamps_are_compared_and_their_age_is_told()
    {
        await clinic.CountsAsync(Lamps([120, 121, 119], [100, 101, 99]));
        var exam = clinic.Exam(await clinic.OpenAsync());

        // log10(120 / 100) = 0.0792 (a table of logarithms).
        Assert.Equal(0.0792, exam.LampBalance!.Balance!.LogUnits, 4);
        clinic.Time.SetUtcNow(clinic.Instrument.Now.AddDays(400));
        var shown = Assert.Single((await clinic.Bench.BenchAsync(default)).Instruments).Lamps!;
        Assert.Equal((400, true), (shown.AgeDays, shown.IsOverdue));
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Lamps([120], [100])));
        Assert.Contains("at least two", refused.Reason, StringComparison.Ordinal);
        Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Lamps([0, 0], [100, 100])));
    }

    [Fact]
    public async Task An_instrument_that_reads_its_own_lamps_spares_the_meter()
    {
        var run = (await clinic.RecordedAsync(clinic.Begin("timing"))).Exam!.Value;
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Sequence, Block.Direct));
        await RefusedAsync(FromRun(run), "did not tell");
        foreach (var (eye, millilux) in new[] { (Eye.Right, 90_000), (Eye.Left, 100_000) })
        {
            for (var n = 0; n < 3; n++)
            {
                clinic.House.Add(clinic.Instrument.Lamp(eye, true));
                clinic.House.Add(clinic.Instrument.LampOutput(eye, millilux + (100 * (n - 1))));
                clinic.House.Add(clinic.Instrument.Lamp(eye, false));
            }
        }

        await clinic.CountsAsync(FromRun(run));

        // log10(90 / 100) = −0.0458 (a table of logarithms).
        var lamps = clinic.House.Book.Lane(new(Support.Clinic.Serial))!.LampBalance!;
        Assert.Equal(
            (Exams.Entries.LampReadingSource.Instrument, -0.0458),
            (lamps.Source, Math.Round(lamps.Balance!.LogUnits, 4))
        );
        Assert.Contains(
            "-0.046",
            (await clinic.Bench.ShowRunAsync(run, default))!.LampOutput,
            StringComparison.Ordinal
        );
        await RefusedAsync(FromRun(run + 1000), "no bench run");
    }

    private LampBalanceEntry FromRun(long run) => Lamps([], []) with { FromRun = run };

    private async Task RefusedAsync(DeskEntry entry, string words) =>
        Assert.Contains(
            words,
            Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(entry)).Reason,
            StringComparison.Ordinal
        );

    private AdoptRepeatabilityEntry Adopt(long run) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "TB",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Run = run,
        };

    private LampBalanceEntry Lamps(double[] right, double[] left) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "TB",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Instrument = Support.Clinic.Serial,
            RightLux = right,
            LeftLux = left,
            StepLux = 1,
        };
}
