using System.Globalization;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Bench;

/// <summary>One bench run as it is shown.</summary>
internal static class RunViews
{
    /// <summary>So many steps ahead are named.</summary>
    private const int Ahead = 3;

    public static BenchRunView Of(IClinicHouse house, Exam sitting, UtcTime now)
    {
        var run = sitting.Bench!;
        var progress = RunProgress.Of(sitting);
        var isOpen = sitting.TakesEvents;
        var (line, other) = LineOf(house, sitting);
        return new BenchRunView
        {
            Line = RunLines.Of(sitting),
            InstrumentLine = line,
            OtherInstrument = other,
            DiscSet = run.DiscSet is { } set ? BenchOverviews.Of(set, now) : null,
            Rule = run.Rule is { } rule ? Words(rule) : null,
            Conditions = Conditions(run),
            Seed = run.Seed.ToString("x16", CultureInfo.InvariantCulture),
            Asked = isOpen && progress.Asked is { } asked ? Of(run, asked) : null,
            Done = progress.Counting.Count(),
            ToCome = progress.ToCome.Count,
            Next = isOpen ? [.. progress.ToCome.Skip(1).Take(Ahead).Select(step => Of(run, step))] : [],
            Readings = ReadingsOf(progress),
            Refused = [.. sitting.RefusedPairs.Select(Refused)],
            Scales = ScaleViews.Of(sitting),
            Blocks = run.Kind == BenchRunKind.StimulusTiming ? TimingBlocks.Of(sitting) : [],
            Timing = TimingLines.Of([sitting], sitting.Profile),
            Live = LiveOf(sitting, run),
            LampOutput = LampReadings.Words(sitting),
            Why = Why(sitting, run),
            Incidents = [.. sitting.Incidents.Select(Incident)],
        };
    }

    /// <summary>The state of the line to the run's instrument, and which other instrument is in its place; null if none is.</summary>
    public static (string Line, string? Other) LineOf(IClinicHouse house, Exam sitting)
    {
        var instruments = InstrumentViews.List(house).Instruments;
        var own = instruments.FirstOrDefault(one => one.Instrument == sitting.Serial.Value);
        return (own?.Line ?? "not-seen", sitting.TakesEvents ? OtherOn(own, instruments) : null);
    }

    /// <summary>A decision rule in words.</summary>
    public static string Words(DecisionRule rule) =>
        ClinicText.Bench.Of(
            "Rule",
            rule.Kind,
            rule.MaximumPermissibleErrorMillimetres.ToString("0.###", CultureInfo.InvariantCulture),
            rule.GuardBandFactor.ToString("0.##", CultureInfo.InvariantCulture)
        );

    /// <summary>The instrument that took the place of the one on the bench: it is on the same port while that one is not there.</summary>
    private static string? OtherOn(InstrumentView? own, IReadOnlyList<InstrumentView> all) =>
        own is { Line: not "connected" }
            ? all.FirstOrDefault(one =>
                one.Instrument != own.Instrument && one.Line == "connected" && one.Port == own.Port
            )?.Instrument
            : null;

    private static BenchStepView Of(BenchRun run, BenchStep step) =>
        new(
            ClinicWords.Eyes[step.Eye],
            step.Disc,
            step.Disc is { } name ? run.DiscSet?.Find(name)?.DiameterMillimetres : null,
            step.Light is { } light ? ClinicWords.Lights[light] : null
        );

    private static IReadOnlyList<BenchReadingView> ReadingsOf(RunProgress progress)
    {
        var far = FarOffReadings.Of(progress);
        return
        [
            .. progress.Readings.Select(reading => new BenchReadingView(
                reading.Capture.CompletedBy.Value,
                Shown.Time(reading.Capture.When.At),
                ClinicWords.Eyes[reading.Capture.Eye],
                reading.Step?.Disc,
                reading.Capture.Nasal.Position.Value,
                reading.Capture.Temporal.Position.Value,
                reading.IndicatedMillimetres,
                CertificateWords.Of(reading.State),
                far.Contains(reading.Capture.CompletedBy.Value),
                reading.Mark?.Reason,
                reading.Mark?.Who.Value
            )),
        ];
    }

    private static LiveStudyView? LiveOf(Exam sitting, BenchRun run)
    {
        if (run.Kind != BenchRunKind.LiveRepeatability)
        {
            return null;
        }

        var outcome = LiveStudyOutcome.Of(sitting);
        return outcome.Found is { } found
            ? new LiveStudyView(
                found.WithinMillimetres,
                found.DegreesOfFreedom,
                found.CoefficientMillimetres,
                ClinicText.Bench.Get(
                    "Live.Found",
                    Millimetres(found.WithinMillimetres),
                    Millimetres(found.Interval.Low),
                    Millimetres(found.Interval.High),
                    found.DegreesOfFreedom,
                    Millimetres(found.CoefficientMillimetres)
                ),
                run.IsAdopted
            )
            : new LiveStudyView(null, 0, null, outcome.Refusal ?? "", run.IsAdopted);
    }

    private static string? Why(Exam sitting, BenchRun run) =>
        run.Ending is { IsFinished: false } given ? given.Reason
        : run.Ending is null && sitting.Closing is { } closing ? ClinicText.Bench.Of("Closed", closing.Reason)
        : null;

    private static string Conditions(BenchRun run) =>
        run.TemperatureCelsius is { } celsius
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{celsius:0.#} °C{(run.Conditions.Length > 0 ? ", " : "")}{run.Conditions}"
            )
            : run.Conditions;

    private static string Refused(RefusedPair pair) =>
        $"{ClinicWords.Eyes[pair.Eye]}: {Shown.Word(pair.Reason)} ({pair.RefusedBy})";

    private static string Incident(Incident incident) =>
        incident.Detail.Length > 0
            ? $"{IncidentWords.Of(incident.Kind)}: {incident.Detail}"
            : IncidentWords.Of(incident.Kind);

    private static string Millimetres(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);
}
