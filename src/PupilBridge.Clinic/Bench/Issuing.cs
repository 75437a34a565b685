using System.Security.Cryptography;
using System.Text;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>From a finished calibration to its certificate: it is made here and now, and must be the one that the person saw.</summary>
internal static class Issuing
{
    /// <summary>Scales that say nothing: what stands in an entry before the house has put in those of the run.</summary>
    public static PerEye<CalibratedScale> NoScales { get; } = new() { Right = NoScale, Left = NoScale };

    private static CalibratedScale NoScale => new(new(0, 0, 0, default, 1), 0, ConformityStatement.Fail, 0, 0);

    /// <summary>The certificate that a run would get now.</summary>
    public static CertificateDraft Draft(IClinicHouse house, Exam sitting, UtcTime now)
    {
        if (WhyNot(sitting, out var outcome) is { } obstacle)
        {
            return new CertificateDraft(null, null, $"{obstacle.Reason} {obstacle.NextStep}");
        }

        var certificate = Make(house, sitting, outcome!, sitting.Bench!.Technician, now, now, ExpiryOf(house, now));
        return new CertificateDraft(
            CertificateText.Write(certificate with { IsDraft = true }),
            DigestOf(certificate),
            null
        );
    }

    /// <summary>Puts the certificate into an entry.</summary>
    public static CalibrationIssued Compose(
        IClinicHouse house,
        IssueEntry given,
        CalibrationIssued issued,
        out EntryObstacle? obstacle
    )
    {
        if (house.FindRun(issued.Exam) is not { } sitting)
        {
            obstacle = new(ClinicText.Bench.Get("Run.None", issued.Exam), ClinicText.Bench["Run.NoneNext"]);
            return issued;
        }

        obstacle = WhyNot(sitting, out var outcome);
        if (obstacle is not null)
        {
            return issued;
        }

        var expires = given.Expires is { } until ? UtcTime.From(until) : ExpiryOf(house, issued.Effective);
        var certificate = Make(house, sitting, outcome!, issued.Who, issued.At, issued.Effective, expires);
        if (!string.Equals(DigestOf(certificate), given.SeenDigest?.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            obstacle = new(ClinicText.Bench.Get("Issue.Changed", issued.Exam), ClinicText.Bench["Issue.ChangedNext"]);
        }

        return issued with
        {
            Number = certificate.Number,
            Expires = expires,
            Scales = outcome!.Select((_, scale) => scale.Calibrated!),
            Certificate = CertificateText.Write(certificate),
        };
    }

    /// <summary>
    /// The digest of what a person judges by: all but the moments of issue and validity and the journal's end, which are put in when it
    /// is issued.
    /// </summary>
    private static string DigestOf(Certificate certificate)
    {
        var judged = certificate with { Issued = "", IssuedBy = "", Effective = "", Expires = null, JournalHead = "" };
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(CertificateText.Write(judged))));
    }

    private static EntryObstacle? WhyNot(Exam sitting, out PerEye<ScaleOutcome>? outcome)
    {
        outcome = null;
        var run = sitting.Bench!;
        if (run.Kind != BenchRunKind.Calibration)
        {
            return new(
                ClinicText.Bench.Get("Issue.NoCalibration", sitting.Id),
                ClinicText.Bench["Issue.NoCalibrationNext"]
            );
        }

        if (run.Certificate is { } number)
        {
            return new(
                ClinicText.Bench.Get("Issue.Already", sitting.Id, number),
                ClinicText.Bench["Issue.AlreadyNext"]
            );
        }

        if (run.Ending is not { IsFinished: true })
        {
            return new(
                ClinicText.Bench.Get("Issue.NotFinished", sitting.Id),
                ClinicText.Bench["Issue.NotFinishedNext"]
            );
        }

        outcome = CalibrationOutcome.Of(sitting);
        var (right, left) = (outcome.Right.Refusal, outcome.Left.Refusal);
        return right is null && left is null
            ? null
            : new(
                ClinicText.Bench.Get("Issue.NoFit", right is null ? "OS" : "OD", right ?? left!),
                ClinicText.Bench["Issue.NoFitNext"]
            );
    }

    private static Certificate Make(
        IClinicHouse house,
        Exam sitting,
        PerEye<ScaleOutcome> outcome,
        PersonId by,
        UtcTime issued,
        UtcTime effective,
        UtcTime? expires
    )
    {
        var lane = house.Book.Lane(sitting.Serial);
        return CertificateMaking.Of(
            sitting,
            outcome,
            new CertificateContext
            {
                Number = house.Book.NextCertificate,
                Clinic = house.Bench.ClinicName,
                Issued = issued,
                IssuedBy = by,
                Effective = effective,
                Expires = expires,
                Supersedes = lane?.Calibrations.Count > 0 ? lane.Calibrations[^1] : null,
                Timing = TimingOf(house, sitting),
                Lamps = lane?.LampBalance,
                Repeatability = lane?.Repeatability,
                ProgramVersion = house.Book.ProgramVersion,
                JournalHead = house.Head?.ToString() ?? "",
            }
        );
    }

    /// <summary>The timing of the last run for it; else that of stimuli in this run; else that of the latest exams.</summary>
    private static CertifiedTiming? TimingOf(IClinicHouse house, Exam sitting)
    {
        var profile = house.Book.Profile;
        var last = RunLines
            .Summaries(house, sitting.Serial, null, Drifts.MostRuns)
            .FirstOrDefault(run => run is { Kind: BenchRunKind.StimulusTiming, IsFinished: true });
        if (last is not null && house.FindRun(last.Run) is { } timing)
        {
            return CertifiedTimings.Of(
                ClinicText.Bench.Get("Timing.Run", timing.Id, timing.Opening.When.At),
                [timing],
                profile
            );
        }

        var exams = Drifts.LatestExams(house, sitting.Serial);
        return CertifiedTimings.Of(ClinicText.Bench.Get("Timing.Exams", exams.Count), exams, profile);
    }

    private static UtcTime? ExpiryOf(IClinicHouse house, UtcTime effective) =>
        UtcTime.From(effective.ToDateTimeOffset().AddMonths(house.Bench.CertificateMonths));
}
