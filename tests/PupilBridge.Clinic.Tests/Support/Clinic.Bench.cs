using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>What a technician, TB, does on the bench.</summary>
internal sealed partial class Clinic
{
    /// <summary>The discs of the demo's set, in mm.</summary>
    public static readonly IReadOnlyList<double> DiscDiameters = [2.001, 3.002, 4.000, 5.001, 6.003, 7.999];

    public BenchDesk Bench => new(House, Time);

    public DiscSetEntry Discs(string name = "quay-discs", DateOnly? expires = null) =>
        new()
        {
            EntryId = NewId(),
            Who = "TB",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Name = name,
            CertificateNumber = "Q-77",
            CertifiedBy = "Harbour Gauge Room",
            Certified = new DateOnly(2025, 6, 1),
            Expires = expires,
            CommonUncertaintyMillimetres = 0.001,
            Discs = [.. DiscDiameters.Select((mm, i) => new DiscLine($"D{i + 1}", mm, 0.002))],
        };

    public BeginRunEntry Begin(string kind, int? repeats = null, string? set = "quay-discs") =>
        new()
        {
            EntryId = NewId(),
            Who = "TB",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Instrument = Serial,
            Kind = kind,
            DiscSet = kind is "calibration" or "quick-check" ? set : null,
            Repeats = repeats,
            TemperatureCelsius = 21.5,
            Conditions = "no draught",
        };

    public EndRunEntry End(long run, bool isFinished = true, string? reason = null) =>
        new()
        {
            EntryId = NewId(),
            Who = "TB",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Run = run,
            IsFinished = isFinished,
            Reason = reason,
        };

    public MarkReadingEntry Aside(long run, long reading, bool isSetAside = true, string reason = "slipped") =>
        new()
        {
            EntryId = NewId(),
            Who = "TB",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Run = run,
            Reading = reading,
            IsSetAside = isSetAside,
            Reason = reason,
        };

    public IssueEntry Issue(long run, string? seen, DateTimeOffset? effective = null) =>
        new()
        {
            EntryId = NewId(),
            Who = "TB",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Run = run,
            SeenDigest = seen ?? "",
            Effective = effective,
        };

    /// <summary>
    /// Puts each disc that is asked for before the scale that is asked for, until nothing is. Scales read off by an offset and a gain,
    /// and scatter by a step to either side in turn.
    /// </summary>
    public async Task<BenchRunView> FollowAsync(long run, PerEye<(double Offset, double Gain)> error, int most = 1000)
    {
        for (var turn = 0; turn < most; turn++)
        {
            var view = (await Bench.ShowRunAsync(run, default))!;
            if (view.Asked is not { } asked)
            {
                return view;
            }

            Measure(asked, error, turn);
        }

        return (await Bench.ShowRunAsync(run, default))!;
    }

    /// <summary>One reading of what is asked for.</summary>
    public void Measure(BenchStepView asked, PerEye<(double Offset, double Gain)> error, int turn)
    {
        var eye = asked.Eye == "OD" ? Eye.Right : Eye.Left;
        var (offset, gain) = error[eye];
        var indicated = (asked.DiameterMillimetres!.Value * gain) + offset + (0.01 * ((turn % 3) - 1));
        House.Add(Instrument.Mark(eye, (int)Math.Round(indicated * 1000)));
    }

    /// <summary>A whole calibration up to its certificate.</summary>
    public async Task<long> CalibrateAsync(PerEye<(double Offset, double Gain)> error)
    {
        if (!House.Book.DiscSets.ContainsKey("quay-discs"))
        {
            await CountsAsync(Discs());
        }

        var run = (await RecordedAsync(Begin("calibration", 3))).Exam!.Value;
        House.Add(Instrument.Dial(InstrumentMode.Measure));
        await FollowAsync(run, error);
        await CountsAsync(End(run));
        House.WriteLog();
        await CountsAsync(Issue(run, (await Bench.DraftCertificateAsync(run, default))!.Digest));
        return run;
    }
}
