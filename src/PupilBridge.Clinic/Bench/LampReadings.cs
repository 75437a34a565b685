using System.Globalization;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>What an instrument's own meter read before its lamps in a run.</summary>
internal static class LampReadings
{
    /// <summary>The step in which an instrument tells a lamp's output, in millilux (docs/protocol.md).</summary>
    private const long StepMillilux = 1;

    /// <summary>Takes the readings of a run into an entry.</summary>
    public static LampBalanceEntered Take(
        IClinicHouse house,
        ExamId run,
        LampBalanceEntered lamps,
        out EntryObstacle? obstacle
    )
    {
        obstacle = null;
        if (house.FindRun(run) is not { } sitting || sitting.Serial != lamps.Serial)
        {
            obstacle = new(ClinicText.Bench.Get("Lamps.NoRun", run, lamps.Serial), ClinicText.Bench["Run.NoneNext"]);
            return lamps;
        }

        var readings = Of(sitting);
        if (readings.Right.Count == 0 || readings.Left.Count == 0)
        {
            obstacle = new(ClinicText.Bench.Get("Lamps.NotTold", run), ClinicText.Bench["Lamps.NotToldNext"]);
        }

        return lamps with
        {
            Millilux = readings,
            StepMillilux = StepMillilux,
            Source = LampReadingSource.Instrument,
            Meter = ClinicText.Bench.Get("Lamps.OwnMeter", run),
        };
    }

    /// <summary>The balance that a run gives, for a person; null where the instrument told nothing of its lamps.</summary>
    public static string? Words(Exam sitting)
    {
        var readings = Of(sitting);
        if (readings.Right.Count + readings.Left.Count == 0)
        {
            return null;
        }

        try
        {
            var balance = LampBalance.Of(
                readings.Select((_, lamp) => (IReadOnlyList<double>)[.. lamp.Select(one => one / 1000.0)]),
                StepMillilux / 1000.0
            );
            return ClinicText.Bench.Get(
                "Lamps.Found",
                balance.LogUnits.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture),
                balance.ExpandedFor95LogUnits.ToString("0.000", CultureInfo.InvariantCulture),
                readings.Right.Count,
                readings.Left.Count
            );
        }
        catch (StatisticsRefusedException refused)
        {
            return refused.Message;
        }
    }

    private static PerEye<ValueList<long>> Of(Exam sitting) =>
        new() { Right = OfLamp(sitting, Eye.Right), Left = OfLamp(sitting, Eye.Left) };

    private static ValueList<long> OfLamp(Exam sitting, Eye eye) =>
        [.. sitting.LampOutputs.Where(reading => reading.Eye == eye).Select(reading => reading.Millilux)];
}
