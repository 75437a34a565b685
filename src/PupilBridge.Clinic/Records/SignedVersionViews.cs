using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Records;

/// <summary>Signed versions, each with its own text out of the record, never made anew.</summary>
internal static class SignedVersionViews
{
    /// <summary>One version.</summary>
    public static SignedVersionView Of(SignedVersion version)
    {
        var (line, block) = ChartOf(version.Record);
        return new SignedVersionView(
            version.Version,
            version.Who.Value,
            Shown.Time(version.At),
            version.Reason,
            version.Sequence.Value,
            version.Record is null ? "" : SignedRecordText.Digest(version.Record),
            version.Record ?? "",
            line,
            block
        );
    }

    private static (string Line, string Block) ChartOf(string? text)
    {
        if (text is null)
        {
            var erased = ClinicText.Records["Signed.Erased"];
            return (erased, erased);
        }

        try
        {
            var chart = SignedRecordText.Read(text).Chart;
            return (chart.Line, string.Join('\n', chart.Block));
        }
        catch (FormatException unreadable)
        {
            return (unreadable.Message, unreadable.Message);
        }
    }
}
