using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>What a timing run asks of the dial: every block that the profile has times for, until its stimuli came.</summary>
internal static class TimingBlocks
{
    public static IReadOnlyList<BenchBlockView> Of(Exam sitting)
    {
        var profile = sitting.Profile;
        return
        [
            One(sitting, Block.Direct, profile.Direct.DwellMilliseconds, profile.Direct.StimuliPerEye),
            One(sitting, Block.SwingShort, profile.SwingShort.DwellMilliseconds, Each(profile.SwingShort.Alternations)),
            One(sitting, Block.SwingLong, profile.SwingLong.DwellMilliseconds, Each(profile.SwingLong.Alternations)),
        ];
    }

    /// <summary>So many alternations light one eye more often than there are pairs of them.</summary>
    private static int Each(int alternations) => (alternations + 2) / 2;

    private static BenchBlockView One(Exam sitting, Block block, int dwell, int wanted) =>
        new(
            CertificateWords.Of(block),
            dwell,
            wanted,
            new PerEye<int> { Right = Count(sitting, block, Eye.Right), Left = Count(sitting, block, Eye.Left) }
        );

    private static int Count(Exam sitting, Block block, Eye eye) =>
        sitting.Stimuli.Count(stimulus =>
            stimulus.Block == block && stimulus.Eye == eye && stimulus.DwellMilliseconds is not null
        );
}
