using CsCheck;
using PupilBridge.Constructed;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Tests.Criteria;
using PupilBridge.Exams.Tests.Scripts;

namespace PupilBridge.Exams.Tests.Notation;

/// <summary>
/// The chart text, in all three lengths, never calls normal what was not examined. What "calls normal" means, token by token, is
/// <see cref="NormalTokens"/>: each letter of PERRLA, each size and grade, "round", "no RAPD seen", "alike", "timely".
/// </summary>
public class NothingCalledNormalTests
{
    private const string Whole =
        "meet A; lux 300; open Q-1001; +1000; mode measure; pair R 3200; pair L 3150; lux 1; +40000; pair R 5100; pair L 5050;"
        + "shape R round; shape L round; mode hold direct; directs; direct R 3; direct L 3; consensual R 3; consensual L 3;"
        + "mode hold short; swings 1000 4 R; swing short alike; mode hold long; swings 3000 4 R; swing long alike;"
        + "mode hold near; near R 3; near L 3; ready";

    [Fact]
    public void No_length_of_the_chart_calls_normal_what_was_not_examined()
    {
        var met = NormalTokens.Kinds.ToDictionary(kind => kind, _ => 0);
        WildScripts.Any.Sample(
            script =>
            {
                foreach (var exam in WildScripts.Run(script).Exams.Values)
                    Check(new() { Exam = exam }, met);
            },
            iter: 2_000
        );
        NothingUnexaminedTests.PartialExam.Sample(done => Check(ConstructedExam.Of(done), met), iter: 800);
        // A difference alike in both lights is rare by chance; the sizes are given here, all else is partial.
        NothingUnexaminedTests
            .PartialExam.Select(done => $"{done};bright 4.00/3.00;dim 6.00/5.00;status none/none;dark 40+0")
            .Sample(done => Check(ConstructedExam.Of(done), met), iter: 100);
        // A check that never meets a token would prove nothing.
        Assert.All(met, kind => Assert.True(kind.Value > 20, $"tokens met: {string.Join(", ", met)}"));
    }

    /// <summary>
    /// The check can fail: the chart of a whole exam is held against the facts of one from which a thing was left out, and exactly the
    /// tokens that rest on it are found.
    /// </summary>
    [Theory]
    [InlineData("pair R 3200;", "E, size")]
    [InlineData("pair L 5050;", "E, size")]
    [InlineData("shape L round;", "R, round")]
    [InlineData("direct R 3;", "RL, direct")]
    [InlineData("near L 3;", "A, near")]
    [InlineData("consensual L 3;", "consensual")]
    [InlineData("swing short alike;", "no RAPD")]
    [InlineData("swings 3000 4 R; swing long alike;", "no RAPD")]
    public void A_chart_that_says_more_than_was_examined_is_found_out(string leftOut, string expected)
    {
        Assert.Contains(leftOut, Whole, StringComparison.Ordinal);
        var partial = Script.Run(Whole.Replace(leftOut, "", StringComparison.Ordinal)).Exam;
        foreach (var lines in Lengths(new() { Exam = Script.Run(Whole).Exam }))
        {
            var wrong = NormalTokens.Of(lines, partial).Where(claim => !claim.WasExamined).Select(claim => claim.Kind);
            var known = expected.Split(", ");
            Assert.Equal(known.Order(), wrong.Distinct().Order());
        }
    }

    [Fact]
    public void A_chart_full_of_values_is_read_token_by_token()
    {
        var exam = Script.Run(Whole).Exam;
        foreach (var lines in Lengths(new() { Exam = exam }))
        {
            var counts = NormalTokens.Of(lines, exam).CountBy(claim => claim.Kind).ToDictionary();
            Assert.All(new[] { "P", "E", "R", "RL", "A", "no RAPD" }, letter => Assert.Equal(1, counts[letter]));
            Assert.All(new[] { "size", "round", "direct", "near", "consensual" }, of => Assert.Equal(2, counts[of]));
        }
    }

    private static void Check(CriteriaInput input, Dictionary<string, int> met)
    {
        foreach (var lines in Lengths(input))
        {
            Assert.All(lines, line => Assert.DoesNotMatch(NormalTokens.Never(), line));
            foreach (var (kind, wasExamined) in NormalTokens.Of(lines, input.Exam))
            {
                Assert.True(wasExamined, $"'{kind}' was not examined:\n{string.Join('\n', lines)}");
                lock (met)
                    met[kind]++;
            }
        }
    }

    private static IEnumerable<string>[] Lengths(CriteriaInput input)
    {
        var record = SignedRecords.Of(input, "0");
        return
        [
            [record.Chart.Line],
            record.Chart.Block,
            FullChart.Of(record),
        ];
    }
}
