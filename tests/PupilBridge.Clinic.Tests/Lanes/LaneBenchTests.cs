using PupilBridge.Clinic.Lanes;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Lanes;

/// <summary>What a lane says of the bench: a run that takes the readings, the calibration, and diameters corrected by it.</summary>
public sealed class LaneBenchTests : IDisposable
{
    private static readonly PerEye<(double Offset, double Gain)> Error = new()
    {
        Right = (0.030, 1.004),
        Left = (-0.020, 0.995),
    };

    private readonly LaneScene scene = new();

    public void Dispose() => scene.Dispose();

    [Fact]
    public async Task Without_a_calibration_the_lane_says_so()
    {
        var board = await scene.LookAsync();
        Assert.Equal(("missing", null), (board.Calibration!.Standing, board.Calibration.Number));
        Assert.StartsWith("Not calibrated", board.Calibration.Words, StringComparison.Ordinal);
        Assert.Null(board.Bench);
    }

    [Fact]
    public async Task A_run_on_the_bench_is_named_and_nothing_is_asked_for()
    {
        var clinic = scene.Clinic;
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration"))).Exam!.Value;
        var board = await scene.LookAsync();
        Assert.Null(board.Exam);
        Assert.Equal((run, "calibration", "TB"), (board.Bench!.Run, board.Bench.Kind, board.Bench.Technician));
        Assert.StartsWith("On the bench: calibration, run ", board.Bench.Words, StringComparison.Ordinal);
        Assert.Contains("Exams begin again when the run has ended", board.Bench.Words, StringComparison.Ordinal);

        await clinic.CountsAsync(clinic.End(run, isFinished: false, reason: "lunch"));
        Assert.Null((await scene.LookAsync()).Bench);
    }

    [Fact]
    public async Task A_patient_goes_before_the_bench_and_the_examiner_is_told()
    {
        var clinic = scene.Clinic;
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration"))).Exam!.Value;
        var opened = await clinic.RecordedAsync(clinic.Opening());
        Assert.Contains($"Run {run} on the bench (by TB) was broken off", opened.Notice, StringComparison.Ordinal);
        var board = await scene.LookAsync();
        Assert.Null(board.Bench);
        Assert.Equal(opened.Exam, board.Exam!.Exam);
        Assert.Equal("broken-off", (await clinic.Bench.ShowRunAsync(run, default))!.Line.State);
    }

    [Fact]
    public async Task Live_and_recorded_diameters_are_corrected_by_the_calibration_in_force()
    {
        var clinic = scene.Clinic;
        await clinic.CalibrateAsync(Error);
        var board = await scene.LookAsync();
        Assert.Equal(("holds", 1), (board.Calibration!.Standing, board.Calibration.Number));

        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.CountsAsync(clinic.Light(exam, "bright"));
        // Both scales stood at 4.00 mm.
        clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_046));
        clinic.House.Add(clinic.Instrument.Mark(Eye.Left, 3_960));
        var sizes = (await scene.ExamAsync()).Sizes;
        Assert.Equal(["OD", "OS"], sizes.Select(size => size.Eye));
        Assert.All(sizes, size => Assert.InRange(size.Millimetres, 3.99, 4.01));
    }

    [Fact]
    public async Task What_a_scale_shows_now_is_corrected_too()
    {
        await scene.Clinic.CalibrateAsync(Error);
        var sight = new LaneSight
        {
            Serial = new(Support.Clinic.Serial),
            Live = null,
            Port = null,
            Book = scene.Clinic.House.Book,
            Exam = null,
            Ended = null,
            Patient = null,
            Trouble = null,
        };
        var now = scene.Instrument.Now;
        Assert.InRange(LaneBenches.Corrected(sight, Eye.Right, new(4_046), now), 3.995, 4.005);
        Assert.InRange(LaneBenches.Corrected(sight, Eye.Left, new(3_960), now), 3.995, 4.005);
        // Before it was issued nothing corrected.
        Assert.Equal(4.046, LaneBenches.Corrected(sight, Eye.Right, new(4_046), now.AddYears(-1)), 9);
    }
}
