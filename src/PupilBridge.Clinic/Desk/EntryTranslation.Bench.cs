using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Clinic.Desk;

/// <content>The entries of the service bench.</content>
internal static partial class EntryTranslation
{
    /// <summary>Null if it is none of the bench.</summary>
    private static PersonEntry? OfBench(DeskEntry entry, Stamp by) =>
        entry switch
        {
            DiscSetEntry e => new DiscSetEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Set = SetOf(e),
            },
            BeginRunEntry e => new BenchRunBegun
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Serial = Given.Serial(e.Instrument),
                Kind = BenchWords.Kinds.Read(e.Kind),
                DiscSet = null,
                Plan = [],
                // The id was drawn at random where it was typed; the order drawn from it is the same when the entry is sent again.
                Seed = (ulong)by.Id.Value,
                Rule = null,
                StraightnessMillimetres = Real(e.StraightnessMillimetres, 0, 1, "What.Straightness"),
                TemperatureCelsius = e.TemperatureCelsius is { } celsius
                    ? Real(celsius, -50, 60, "What.Temperature")
                    : null,
                Conditions = Given.Text(e.Conditions, ClinicText.Bench["What.Conditions"]) ?? "",
            },
            LampBalanceEntry e => new LampBalanceEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Serial = Given.Serial(e.Instrument),
                Millilux = new() { Right = Millilux(e.RightLux), Left = Millilux(e.LeftLux) },
                StepMillilux = (long)Math.Round(Real(e.StepLux, 0, 1000, "What.Step") * 1000),
                Source = LampReadingSource.Typed,
                Meter = Given.Text(e.Meter, ClinicText.Bench["What.Meter"], 200) ?? "",
            },
            RunDeskEntry e => OfRun(e, by),
            _ => null,
        };

    private static ExamEntry? OfRun(RunDeskEntry entry, Stamp by) =>
        entry switch
        {
            MarkReadingEntry e => new BenchReadingMarked
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Run),
                Reading = new(e.Reading),
                IsSetAside = e.IsSetAside,
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            EndRunEntry e => new BenchRunEnded
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Run),
                IsFinished = e.IsFinished,
                Reason = e.IsFinished
                    ? Given.Text(e.Reason, ClinicText.Desk["What.Reason"]) ?? ""
                    : Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            RunRoomLightEntry e => new RoomLightEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Run),
                Light = ClinicWords.Lights.Read(e.Light),
            },
            // Number, scales and text are put in where the house is known.
            IssueEntry e => new CalibrationIssued
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Run),
                Number = 0,
                Effective = e.Effective is { } from ? UtcTime.From(from) : by.At,
                Expires = null,
                Scales = Issuing.NoScales,
                Certificate = "",
            },
            AdoptRepeatabilityEntry e => new RepeatabilityAdopted
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Run),
                WithinMillimetres = 0,
                DegreesOfFreedom = 0,
            },
            _ => null,
        };

    private static DiscSet SetOf(DiscSetEntry entry) =>
        new()
        {
            Name = Given.Needed(entry.Name, ClinicText.Bench["What.SetName"]),
            CertificateNumber = Given.Needed(entry.CertificateNumber, ClinicText.Bench["What.CertificateNumber"]),
            CertifiedBy = Given.Needed(entry.CertifiedBy, ClinicText.Bench["What.CertifiedBy"]),
            Certified = entry.Certified,
            Expires = entry.Expires,
            CommonUncertaintyMillimetres = entry.CommonUncertaintyMillimetres,
            Discs =
            [
                .. (entry.Discs ?? [])
                    .Select(disc => new Disc(
                        Given.Text(disc.Name, ClinicText.Bench["What.DiscName"], 40) ?? "",
                        disc.DiameterMillimetres,
                        disc.StandardUncertaintyMillimetres
                    ))
                    .OrderBy(disc => disc.DiameterMillimetres),
            ],
        };

    private static ValueList<long> Millilux(IReadOnlyList<double>? lux) =>
        [.. (lux ?? []).Select(one => (long)Math.Round(Real(one, 0.001, 1e6, "What.Lux") * 1000))];

    private static double Real(double value, double least, double most, string what) =>
        value >= least && value <= most
            ? value
            : throw new EntryProblemException(
                ClinicText.Bench.Get("Given.Range", ClinicText.Bench[what], least, most, value)
            );
}
