using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>How an instrument went over time.</summary>
internal static class Drifts
{
    /// <summary>So many runs are looked back at: more than a year of daily checks.</summary>
    public const int MostRuns = 500;

    /// <summary>So many of the latest exams of an instrument show its homes and its timing.</summary>
    public const int MostExams = 100;

    // The exam log finds exams by their time; of a house with several instruments this many pages are looked through.
    private const int MostPages = 4;

    /// <summary>A slope's limit is the permissible error over the range of pupils. Ours.</summary>
    private const double RangeMillimetres = 8;

    public static DriftView? Of(IClinicHouse house, SerialNumber serial, UtcTime now)
    {
        if (house.Book.Lane(serial) is null)
        {
            return null;
        }

        var limit = house.Bench.Rule.MaximumPermissibleErrorMillimetres;
        var horizon = house.Bench.DriftHorizonDays;
        BenchRunSummary[] runs =
        [
            .. RunLines.Summaries(house, serial, null, MostRuns).Where(run => run.IsFinished).Reverse(),
        ];
        var exams = LatestExams(house, serial);
        return new DriftView(
            serial.Value,
            limit,
            PerScale(eye => Series(runs, run => run.OffsetMillimetres[eye], limit, horizon)),
            PerScale(eye => Series(runs, run => run.Slope[eye], limit / RangeMillimetres, horizon)),
            PerScale(eye => Homes(exams, eye, limit, horizon)),
            TimingLines.Of(exams, house.Book.Profile),
            exams.Count
        )
        {
            SlopeLimit = limit / RangeMillimetres,
        };
    }

    /// <summary>The latest exams on an instrument, the latest first.</summary>
    public static IReadOnlyList<Exam> LatestExams(IClinicHouse house, SerialNumber serial)
    {
        List<Exam> found = [];
        string? after = null;
        for (var page = 0; page < MostPages && found.Count < MostExams; page++)
        {
            var from = after;
            var next = house.ReadLog(log => log.ListExams(new ExamQuery { Limit = ExamQuery.MaxLimit, After = from }));
            found.AddRange(
                next.Items.Where(stored => stored.Instrument == serial.Value)
                    .Take(MostExams - found.Count)
                    .Select(house.ReadExam)
            );
            after = next.Next;
            if (after is null)
            {
                break;
            }
        }

        return found;
    }

    private static PerEye<DriftSeries> PerScale(Func<Eye, DriftSeries> of) =>
        new() { Right = of(Eye.Right), Left = of(Eye.Left) };

    private static DriftSeries Series(
        IReadOnlyList<BenchRunSummary> runs,
        Func<BenchRunSummary, double?> value,
        double limit,
        int horizon
    ) =>
        Of(
            [
                .. runs.Where(run => value(run) is not null)
                    .Select(run => new DriftPointView(
                        Day(run.Begun),
                        value(run)!.Value,
                        run.Run.Value,
                        run.Kind == BenchRunKind.QuickCheck
                    )),
            ],
            limit,
            horizon
        );

    private static DriftSeries Homes(IReadOnlyList<Exam> exams, Eye eye, double limit, int horizon) =>
        Of(
            [
                .. exams
                    .Where(exam => exam.HomeRests[eye].Count > 0)
                    .Select(exam => new DriftPointView(
                        Day(exam.Opening.When.At),
                        exam.HomeRests[eye].MeanMicrometres / 1000,
                        exam.Id.Value,
                        false
                    ))
                    .Reverse(),
            ],
            limit,
            horizon
        );

    private static DriftSeries Of(IReadOnlyList<DriftPointView> points, double limit, int horizon)
    {
        DriftPoint[] plain = [.. points.Select(point => new DriftPoint(point.Day, point.Value, point.IsQuickCheck))];
        var chart = DriftChart.Of(plain);
        var state = DriftChart.StateOf(plain, limit, horizon);
        return new DriftSeries(
            points,
            chart?.Centre,
            chart?.Centre + chart?.HalfWidth,
            chart?.Centre - chart?.HalfWidth,
            BenchWords.Drifts[state],
            ClinicText.Bench.Of("Drift", state, points.Count, horizon)
        );
    }

    private static DateOnly Day(UtcTime at) => DateOnly.FromDateTime(at.ToDateTimeOffset().UtcDateTime);
}
