using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Instrument;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Bench;

/// <summary>
/// A technician at a simulated instrument whose scales have a known error: reads what the run asks for, and sets the edges so that the
/// scale indicates what it would. Reads off by one step of 10 µm to either side in turn, as hands do.
/// </summary>
[SupportedOSPlatform("linux")]
internal sealed class BenchTechnician(QuayInstrument instrument, string data)
{
    /// <summary>
    /// Nobody puts a disc before a scale sooner. An instrument's clock is known to about a second only in its first seconds on the line, so
    /// that what it tells sooner may be placed before the run.
    /// </summary>
    private static readonly TimeSpan HandsNeed = TimeSpan.FromSeconds(4);

    private int scatter;

    /// <summary>What the scale of an eye indicates for a true diameter, in mm.</summary>
    public static double Indicated(Eye eye, double millimetres) =>
        eye == Eye.Right ? (1.004 * millimetres) + 0.03 : (0.996 * millimetres) - 0.02;

    /// <summary>Reads what is asked for until so many readings count.</summary>
    public async Task ReadUntil(long run, int count)
    {
        await Eventually.Is(async () => TimeProvider.System.GetUtcNow() - Begun(await Show(run)) > HandsNeed);
        while (await Show(run) is var view && Done(view) < count)
        {
            var asked = view.GetProperty("asked");
            var eye = asked.GetProperty("eye").GetString() == "OD" ? Eye.Right : Eye.Left;
            var step = 10 * ((scatter++ % 3) - 1);
            await instrument.SetEdges(eye, Micrometres(eye, asked) + step);
            var before = Done(view);
            await Eventually.Is(async () => Done(await Show(run)) > before, () => view.ToString());
        }
    }

    /// <summary>A run as the command line shows it.</summary>
    public async Task<JsonElement> Show(long run)
    {
        var shown = await Invoked.Run(
            "calibration",
            "show",
            run.ToString(CultureInfo.InvariantCulture),
            "--json",
            "--data",
            data
        );
        Assert.True(shown.Code == ExitCode.Done, shown.Error);
        using var document = JsonDocument.Parse(shown.Out);
        return document.RootElement.Clone();
    }

    private static int Micrometres(Eye eye, JsonElement asked) =>
        (int)Math.Round(Indicated(eye, asked.GetProperty("diameterMillimetres").GetDouble()) * 100) * 10;

    private static DateTimeOffset Begun(JsonElement view) =>
        view.GetProperty("line").GetProperty("begunAt").GetDateTimeOffset();

    private static int Done(JsonElement view) => view.GetProperty("done").GetInt32();
}
