using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What the bench leaves with an instrument for its later exams: certificates, lamps, repeatability.</summary>
internal static class KeepingSteps
{
    public static void Lamps(Workspace work, LampBalanceEntered entered)
    {
        var record = new LampBalanceRecord(work.Sequence, entered.At, entered.Who, entered.Source, BalanceOf(entered));
        if (record.Balance is null)
        {
            work.Ignore(
                "The readings of the two lamps give no balance: at least two above 0 before each lamp are needed."
            );
            return;
        }

        work.Put(work.Lane(entered.Serial) with { LampBalance = record });
        work.Add(new EntryNoted(work.Sequence, entered));
    }

    /// <summary>The balance that the readings give; null where they give none.</summary>
    public static LampBalance? BalanceOf(LampBalanceEntered entered)
    {
        try
        {
            return LampBalance.Of(
                entered.Millilux.Select((_, lamp) => (IReadOnlyList<double>)[.. lamp.Select(one => one / 1000.0)]),
                entered.StepMillilux / 1000.0
            );
        }
        catch (Exception e) when (e is StatisticsRefusedException or ArgumentOutOfRangeException)
        {
            return null;
        }
    }

    public static void Issue(Workspace work, Exam exam, BenchRun run, CalibrationIssued issued)
    {
        if (WhyNotIssued(work, exam, run, issued) is { } obstacle)
        {
            BenchSteps.Refuse(work, exam, issued, obstacle);
            return;
        }

        var calibration = new IssuedCalibration(
            issued.Number,
            work.Sequence,
            exam.Id,
            issued.Effective,
            issued.Expires,
            issued.Scales
        );
        work.SetInForce(book => book with { NextCertificate = issued.Number + 1 });
        work.Put(exam with { Bench = run with { Certificate = issued.Number } });
        var lane = work.Lane(exam.Serial);
        work.Put(lane with { Calibrations = lane.Calibrations.Add(calibration) });
        work.Add(new EntryNoted(work.Sequence, issued));
    }

    private static string? WhyNotIssued(Workspace work, Exam exam, BenchRun run, CalibrationIssued issued)
    {
        if (run.Kind != BenchRunKind.Calibration)
            return "only a calibration gives a certificate";
        if (run.Certificate is { } number)
            return $"certificate {number} was issued for it already";
        if (run.Ending is not { IsFinished: true } ending)
            return "it is not finished";
        if (issued.Number != work.Book.NextCertificate)
            return $"the next certificate's number is {work.Book.NextCertificate}, not {issued.Number}; look at it again";
        if (issued.Effective < ending.At)
            return "a certificate holds from the end of the run on, not before";
        if (issued.Expires is { } expires && expires <= issued.Effective)
            return "it would expire before it holds";
        if (!issued.Scales.Right.IsSound() || !issued.Scales.Left.IsSound())
            return "a number of its corrections is none; compute the certificate anew";
        return Encoding.UTF8.GetByteCount(issued.Certificate) > CalibrationIssued.MaxCertificateBytes
            ? "the certificate is longer than the journal takes; measure fewer discs or repeats"
            : null;
    }

    public static void Adopt(Workspace work, Exam exam, BenchRun run, RepeatabilityAdopted adopted)
    {
        string? obstacle =
            run.Kind != BenchRunKind.LiveRepeatability ? "it is no study on a person"
            : run.IsAdopted ? "it was adopted before"
            : run.Ending is not { IsFinished: true } ? "it is not finished"
            : adopted is not { WithinMillimetres: > 0 and < 2, DegreesOfFreedom: > 0 }
                ? "there is no repeatability to adopt"
            : null;
        if (obstacle is not null)
        {
            BenchSteps.Refuse(work, exam, adopted, obstacle);
            return;
        }

        var lane = work.Lane(exam.Serial);
        var repeatability = new AdoptedRepeatability(
            work.Sequence,
            adopted.At,
            exam.Id,
            adopted.WithinMillimetres,
            adopted.DegreesOfFreedom
        );
        work.Put(exam with { Bench = run with { IsAdopted = true } });
        work.Put(lane with { Repeatability = repeatability });
    }
}
