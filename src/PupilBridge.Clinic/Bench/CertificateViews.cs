using System.Globalization;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>Certificates as they were issued.</summary>
internal static class CertificateViews
{
    public static CertificateView? Of(IClinicHouse house, long number, UtcTime now)
    {
        var (serial, calibrations, issued) = Find(house, number);
        if (issued is null || house.ReadEntry(issued.Sequence)?.Entry is not CalibrationIssued entry)
        {
            return null;
        }

        var next = NextOf(calibrations, issued, now);
        var standing = Standing(issued, next, now);
        return new CertificateView(number, serial, issued.Run.Value, entry.Certificate, standing, next?.Number);
    }

    /// <summary>The certificates of an instrument, the latest first.</summary>
    public static IReadOnlyList<CertificateLine> List(IClinicHouse house, SerialNumber serial, UtcTime now)
    {
        IssuedCalibration[] all = [.. house.Book.Lane(serial)?.Calibrations ?? []];
        return
        [
            .. all.OrderByDescending(one => one.Number)
                .Select(one =>
                {
                    var next = NextOf(all, one, now);
                    return new CertificateLine(
                        one.Number,
                        one.Run.Value,
                        Shown.Time(one.Effective),
                        one.Expires is { } end ? Shown.Time(end) : null,
                        Standing(one, next, now),
                        next?.Number
                    );
                }),
        ];
    }

    private static IssuedCalibration? NextOf(
        IReadOnlyList<IssuedCalibration> all,
        IssuedCalibration issued,
        UtcTime now
    ) =>
        all.FirstOrDefault(one =>
            one.Number > issued.Number && one.Effective <= now && one.Effective >= issued.Effective
        );

    private static string Standing(IssuedCalibration issued, IssuedCalibration? next, UtcTime now) =>
        next is not null ? ClinicText.Bench.Get("Certificate.Superseded", next.Number, Moment(next.Effective))
        : issued.Effective > now ? ClinicText.Bench.Get("Certificate.NotYet", Moment(issued.Effective))
        : CalibrationViews.Of(issued, now).Words;

    private static string Moment(UtcTime at) =>
        at.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    /// <summary>Finds the calibration of a certificate's number.</summary>
    public static (string Serial, IReadOnlyList<IssuedCalibration> All, IssuedCalibration? Issued) Find(
        IClinicHouse house,
        long number
    )
    {
        foreach (var (serial, lane) in house.Book.Lanes)
        {
            if (lane.Calibrations.FirstOrDefault(one => one.Number == number) is { } found)
            {
                return (serial, [.. lane.Calibrations], found);
            }
        }

        return ("", [], null);
    }
}
