using CsCheck;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Tests.Fhir.Support;

namespace PupilBridge.Exchange.Tests.Fhir;

/// <summary>Left is never exchanged for right: the mirrored exam gives the mirrored bundle, and nothing else does.</summary>
public sealed class MirrorTests
{
    private static readonly Gen<string> Size = Gen.OneOf(
        Gen.Const("-"),
        Gen.Int[200, 800].Select(h => $"{h / 100}.{h % 100:00}")
    );

    private static readonly Gen<string> Grade = Pick.Of("-", "?", "0", "0.5", "1", "2", "3.5", "4");

    private static readonly Gen<string> Exam = Gen.Select(
            Gen.Select(Size, Size, Size, Size),
            Gen.Select(Grade, Grade, Grade, Grade),
            Pick.Of("-", "?", "alike", "R", "L", "R only=L", "L only=R"),
            Pick.Of("none/none", "drops/none", "none/prosthesis", "lIdDown/opaquecornea", "-/none"),
            Pick.Of("round/notround", "notround/-", "couldnotsee/round")
        )
        .Select(
            (sizes, grades, swing, status, shape) =>
                $"bright {sizes.Item1}/{sizes.Item2}; dim {sizes.Item3}/{sizes.Item4}; direct {grades.Item1}/{grades.Item2}; "
                + $"near {grades.Item3}/{grades.Item4}; consensual {grades.Item4}/{grades.Item1}; short {swing}; status {status}; "
                + $"shape {shape}"
        );

    [Theory]
    [MemberData(nameof(Records.Numbers), MemberType = typeof(Records))]
    public void A_mirrored_constructed_exam_gives_the_mirrored_bundle(int number) => Check(Records.Constructed(number));

    [Fact]
    public void A_mirrored_random_exam_gives_the_mirrored_bundle() =>
        Exam.Sample(done => Check(Records.Of(done)), iter: 150);

    [Fact]
    public void The_comparison_can_fail()
    {
        var record = Records.Constructed(2);
        var unmirrored = Mirror.Texts(Records.Draft(record).Document());
        Assert.NotEqual(Mirror.Texts(unmirrored), unmirrored);
    }

    // The chart's texts are of their own project; its own test mirrors them.
    private static void Check(SignedRecord record)
    {
        var bare = record with { Chart = new("line", ["block"]) };
        var straight = Mirror.Texts(Records.Draft(bare).Document());
        var mirrored = Mirror.Texts(Records.Draft(Mirror.Of(bare)).Document());
        Assert.Equal(Mirror.Texts(straight), mirrored);
    }
}
