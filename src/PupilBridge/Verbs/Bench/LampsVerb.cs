using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench;

/// <summary><c>calibration lamps</c>: what a lux meter showed before each lamp.</summary>
internal sealed class LampsVerb : EnteringVerb
{
    /// <summary>Readings of one lamp that differ by more are no readings of one lamp; likely a decimal comma. Ours.</summary>
    private const double LargestRatio = 2;

    private readonly Option<string?> instrument = InstrumentOption.New();
    private readonly Option<double[]> right = Readings("--right", "right");
    private readonly Option<double[]> left = Readings("--left", "left");

    private readonly Option<double?> step = NumberOption.One(
        "--step",
        "LUX",
        "The step of the meter's display, in lux."
    );

    private readonly Option<string?> meter = new("--meter") { Description = "Which meter.", HelpName = "TEXT" };

    public LampsVerb()
        : base(
            "lamps",
            "Enters what one lux meter showed before the right and the left lamp, at least twice each. The balance stands beside every "
                + "swinging outcome, since unequal lamps imitate a defect."
        )
    {
        step.Required = true;
        foreach (var option in (ReadOnlySpan<Option>)[instrument, right, left, step, meter])
        {
            Add(option);
        }

        Example(
            "pupilbridge calibration lamps --instrument QA-1 --right 120,121 --left 118,119 --step 1 --who TE",
            "two readings before each lamp"
        );
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    )
    {
        RefuseScatter(call, right);
        RefuseScatter(call, left);
        var on = await sending.Access.InstrumentAsync(call.Get(instrument), cancel).ConfigureAwait(false);
        return
        [
            new LampBalanceEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Instrument = on.Instrument,
                RightLux = call.Get(right)!,
                LeftLux = call.Get(left)!,
                StepLux = call.Get(step)!.Value,
                Meter = call.Get(meter),
            },
        ];
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is LampBalanceEntry lamps
            ? $"lamps of {lamps.Instrument}: right {Listed(lamps.RightLux)} lux, left {Listed(lamps.LeftLux)} lux"
            : "";

    private static Option<double[]> Readings(string name, string which) =>
        new(name)
        {
            Description = $"The readings before the {which} lamp, in lux, with commas between them.",
            HelpName = "LUX,LUX…",
            Required = true,
            CustomParser = result =>
            {
                var parts = result.Tokens[0].Value.Split(',', StringSplitOptions.TrimEntries);
                var read = parts.Select(Lux).OfType<double>().ToArray();
                if (read.Length != parts.Length || read.Length < 2)
                {
                    result.AddError(
                        $"{name}: '{result.Tokens[0].Value}' is no list of at least two readings in lux above 0; write it as in 120.5,121.0."
                    );
                }

                return read;
            },
        };

    private static double? Lux(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var lux)
        && lux > 0
        && double.IsFinite(lux)
            ? lux
            : null;

    private static void RefuseScatter(Call call, Option<double[]> option)
    {
        var readings = call.Get(option)!;
        if (readings.Max() > LargestRatio * readings.Min())
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{option.Name}: the readings {Listed(readings)} differ by more than {LargestRatio} to 1. Was a decimal comma meant?",
                "Write numbers with a point (120.5) and a comma between readings; measure again if the meter moved."
            );
        }
    }

    private static string Listed(IReadOnlyList<double> lux) =>
        string.Join(" ", lux.Select(one => one.ToString("0.###", CultureInfo.InvariantCulture)));
}
