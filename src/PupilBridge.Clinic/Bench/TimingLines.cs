using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Clinic.Bench;

/// <summary>The timing of stimuli as it is shown.</summary>
internal static class TimingLines
{
    public static IReadOnlyList<TimingLine> Of(IReadOnlyList<Exam> sittings, Profile profile) =>
        [
            .. BlockTiming
                .Of(sittings, profile)
                .Select(eye => new TimingLine(
                    CertificateWords.Of(eye.Block),
                    ClinicWords.Eyes[eye.Eye],
                    eye.Dwell!.Count,
                    eye.Dwell.MeanMilliseconds,
                    double.IsFinite(eye.Dwell.JitterMilliseconds) ? eye.Dwell.JitterMilliseconds : null,
                    eye.Dwell.ShortestMilliseconds,
                    eye.Dwell.LongestMilliseconds,
                    CertificateWords.Of(eye.DwellVerdict),
                    eye.Gap?.MeanMilliseconds,
                    CertificateWords.Of(eye.GapVerdict)
                )),
        ];
}
