using CsCheck;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Tests.Scripts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>Left and right are treated alike in any exam whatever.</summary>
public class MirrorPropertyTests
{
    [Fact]
    public void A_mirrored_exam_gives_the_mirrored_reasons_before_drops()
    {
        var found = 0;
        WildScripts.Any.Sample(
            script =>
            {
                foreach (
                    var (exam, mirrored) in WildScripts
                        .Run(script)
                        .Exams.Values.Zip(WildScripts.Run([.. script.Select(WildScripts.Mirror)]).Exams.Values)
                )
                {
                    var one = BeforeDrops.Of(exam, []).Select(r => r with { Eye = r.Eye?.Fellow() });
                    var other = BeforeDrops.Of(mirrored, []);
                    // Right stands before left, so that the order of two poor responses is not mirrored.
                    Assert.Equal(one.OrderBy(r => r.ToString()), other.OrderBy(r => r.ToString()));
                    if (other.Any(r => r.Eye is not null && r.Kind != BeforeDropsKind.Incomplete))
                        Interlocked.Increment(ref found);
                }
            },
            iter: 2_000
        );
        Assert.True(found > 30, $"exams with a reason of one eye: {found}");
    }

    [Fact]
    public void A_mirrored_exam_gives_the_mirrored_chart() =>
        WildScripts.Any.Sample(
            script =>
            {
                var one = WildScripts.Run(script).Exams.Values.Select(MirroredRows);
                var other = WildScripts.Run([.. script.Select(WildScripts.Mirror)]).Exams.Values.Select(Rows);
                Assert.Equal(one, other);
            },
            iter: 2_000
        );

    /// <summary>The rows of the two eyes and the swinging line, right before left.</summary>
    private static (string, string, string) Rows(Exam exam)
    {
        var block = ChartText.Block(exam);
        return (
            block[1].Replace("OD (right):", "", StringComparison.Ordinal).Trim(),
            block[2].Replace("OS (left):", "", StringComparison.Ordinal).Trim(),
            block[3]
        );
    }

    private static (string, string, string) MirroredRows(Exam exam)
    {
        var (right, left, swinging) = Rows(exam);
        return (Swap(left), Swap(right), Swap(swinging));
    }

    private static string Swap(string text) =>
        text.Replace("OD (right)", "\u0001", StringComparison.Ordinal)
            .Replace("OS (left)", "OD (right)", StringComparison.Ordinal)
            .Replace("\u0001", "OS (left)", StringComparison.Ordinal);
}
