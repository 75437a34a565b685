using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

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

        var next = calibrations.FirstOrDefault(one =>
            one.Number > number && one.Effective <= now && one.Effective >= issued.Effective
        );
        var standing =
            next is not null ? ClinicText.Bench.Get("Certificate.Superseded", next.Number, next.Effective)
            : issued.Effective > now ? ClinicText.Bench.Get("Certificate.NotYet", issued.Effective)
            : CalibrationViews.Of(issued, now).Words;
        return new CertificateView(number, serial, issued.Run.Value, entry.Certificate, standing, next?.Number);
    }

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
