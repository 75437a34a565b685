using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>The service bench at one look.</summary>
internal static class BenchOverviews
{
    public static BenchOverview Of(IClinicHouse house, UtcTime now) =>
        new(
            [.. InstrumentViews.List(house).Instruments.Select(instrument => Of(house, instrument, now))],
            [.. house.Book.DiscSets.Values.Select(entered => Of(entered.Set, now))],
            new BenchUsual(
                RunViews.Words(house.Bench.Rule),
                house.Bench.CalibrationRepeats,
                house.Bench.QuickCheckRepeats,
                house.Bench.LiveRepeats,
                house.Bench.CertificateMonths,
                BenchRunSummary.MiddleMillimetres
            )
        );

    /// <summary>The lamps of an instrument.</summary>
    public static LampView? Lamps(IClinicHouse house, LampBalanceRecord? lamps, UtcTime now)
    {
        if (lamps is not { Balance: { } balance } record)
        {
            return null;
        }

        var days = record.AgeDays(now);
        return new LampView(
            Shown.Time(record.At),
            days,
            balance.LogUnits,
            balance.ExpandedFor95LogUnits,
            days > house.Criteria.Limits.LampBalanceDays
        );
    }

    public static DiscSetView Of(DiscSet set, UtcTime now) =>
        new(
            set.Name,
            set.CertificateNumber,
            set.CertifiedBy,
            set.Certified,
            set.Expires,
            set.IsExpired(DateOnly.FromDateTime(now.ToDateTimeOffset().UtcDateTime)),
            set.CommonUncertaintyMillimetres,
            [
                .. set.Discs.Select(disc => new DiscView(
                    disc.Name,
                    disc.DiameterMillimetres,
                    disc.StandardUncertaintyMillimetres
                )),
            ]
        );

    private static BenchInstrument Of(IClinicHouse house, InstrumentView instrument, UtcTime now)
    {
        var serial = new SerialNumber(instrument.Instrument);
        var lane = house.Book.Lane(serial);
        var run = house.Book.OpenRunOf(serial);
        return new BenchInstrument
        {
            Instrument = instrument.Instrument,
            Model = instrument.Model,
            Line = instrument.Line,
            Calibration = CalibrationViews.Of(lane?.CalibrationAt(now), now),
            Lamps = Lamps(house, lane?.LampBalance, now),
            LiveRepeatabilityMillimetres = lane?.Repeatability?.WithinMillimetres,
            OpenRun = run?.Id.Value,
            OpenRunKind = run?.Bench is { } bench ? BenchWords.Kinds[bench.Kind] : null,
            OpenExam = house.Book.OpenExamOf(serial)?.Id.Value,
        };
    }
}
