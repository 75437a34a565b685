using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>The timing of stimuli as a certificate has it.</summary>
public static class CertifiedTimings
{
    /// <summary>Of sittings of one instrument.</summary>
    /// <param name="source">From which run or exams, for people.</param>
    /// <param name="sittings">The sittings.</param>
    /// <param name="profile">What is asked for.</param>
    /// <returns>The timing; null if no eye was lit in a block.</returns>
    public static CertifiedTiming? Of(string source, IReadOnlyList<Exam> sittings, Profile profile)
    {
        var eyes = BlockTiming.Of(sittings, profile);
        if (eyes.Count == 0)
            return null;
        return new(
            source,
            [.. eyes.Select(Of)],
            [
                .. BlockTiming
                    .Asymmetries(sittings)
                    .Select(one => new CertifiedAsymmetry(
                        CertificateWords.Of(one.Block),
                        one.Milliseconds,
                        one.ExpandedMilliseconds
                    )),
            ]
        );
    }

    private static CertifiedEyeTiming Of(EyeTiming eye) =>
        new(
            CertificateWords.Of(eye.Block),
            CertificateWords.Of(eye.Eye),
            eye.Dwell!.Count,
            eye.Dwell.MeanMilliseconds,
            double.IsFinite(eye.Dwell.JitterMilliseconds) ? eye.Dwell.JitterMilliseconds : null,
            eye.Dwell.ShortestMilliseconds,
            eye.Dwell.LongestMilliseconds,
            eye.DwellRange?.LeastMilliseconds,
            eye.DwellRange?.MostMilliseconds,
            CertificateWords.Of(eye.DwellVerdict),
            eye.Gap?.MeanMilliseconds,
            CertificateWords.Of(eye.GapVerdict)
        );
}
