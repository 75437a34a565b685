using System.Diagnostics;
using PupilBridge.Journal;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Measure.Wire;

/// <summary>
/// From the instrument's write to the arrival of the acknowledgement, through the real service in a process of its own, with
/// a bare append and fdatasync of as many bytes on the same disk after each event.
/// </summary>
internal static class WireToAck
{
    private const int WarmUp = 300;
    private const int Events = 3_000;

    /// <summary>What one event takes in the journal: its entry and the record around it.</summary>
    private const int RecordBytes = 190;

    public static async Task RunAsync(FigureFile figures, string folder)
    {
        var (terminal, bare) = await MeasureAsync(folder, "terminal");
        figures.Set("wire_to_ack_p50_us", terminal.Median);
        figures.Set("wire_to_ack_p99_us", terminal.P99);
        figures.Set("bare_append_fdatasync_p50_us", bare.Median);
        figures.Set("bare_append_fdatasync_p99_us", bare.P99);
        figures.Set("wire_to_ack_over_bare", terminal.Median / bare.Median, 2);
        figures.Set(
            "wire_transport",
            "Linux terminal adapter over a kernel pseudo-terminal, service in a process of its own"
        );
        var (serial, bareBesideSerial) = await MeasureAsync(folder, "serial");
        figures.Set("serialport_wire_to_ack_p50_us", serial.Median);
        figures.Set("serialport_wire_to_ack_p99_us", serial.P99);
        figures.Set("serialport_bare_append_fdatasync_p50_us", bareBesideSerial.Median);
    }

    private static async Task<(Spread Wire, Spread Bare)> MeasureAsync(string folder, string adapter)
    {
        var run = Directory.CreateDirectory(Path.Combine(folder, $"wire-{adapter}")).FullName;
        var link = Path.Combine(run, "line");
        await using var instrument = new WireInstrument(link);
        using var service = ServiceProcess.Start(Path.Combine(run, "data"), $"{adapter}:{link}");
        await instrument.MeetAsync();
        using var bare = RealDisk.Instance.Open(Path.Combine(run, "bare"), JournalFileMode.CreateNew);
        var bytes = new byte[RecordBytes];
        var random = new Random(1);
        var (wire, appends) = (new List<double>(), new List<double>());
        for (var i = 0; i < WarmUp + Events; i++)
        {
            var took = await instrument.SendAsync();
            var begin = Stopwatch.GetTimestamp();
            bare.Write(bytes, i * (long)RecordBytes);
            bare.Sync();
            var append = Stopwatch.GetElapsedTime(begin).TotalMicroseconds;
            if (i >= WarmUp)
            {
                wire.Add(took);
                appends.Add(append);
            }

            await Task.Delay(random.Next(0, 3));
        }

        service.Stop();
        var result = (Spread.Of(wire), Spread.Of(appends));
        System.Console.WriteLine(
            $"wire to acknowledged, {adapter}: p50 {result.Item1.Median:F0} us, p99 {result.Item1.P99:F0} us; "
                + $"bare append + fdatasync p50 {result.Item2.Median:F0} us, p99 {result.Item2.P99:F0} us; ratio {result.Item1.Median / result.Item2.Median:F2}"
        );
        return result;
    }
}
