using CsCheck;
using PupilBridge.Clinic.Judging;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Judging;

public class JudgementSyntaxTests
{
    private static readonly Gen<Eye> AnyEye = Gen.Int[1, 2].Select(n => (Eye)n);
    private static readonly Gen<Grade> AnyGrade = Gen.Int[-1, Grade.MaxHalfSteps]
        .Select(n => n < 0 ? Grade.CouldNotSee : Grade.FromHalfSteps(n));

    private static readonly Gen<Judgement> AnyJudgement = Gen.OneOf(
        Gen.Select(AnyEye, Gen.Int[1, 3], (eye, n) => (Judgement)new ShapeJudgement(eye, (PupilShape)n)),
        Gen.Select(AnyEye, AnyGrade, (eye, grade) => (Judgement)new DirectResponse(eye, grade)),
        Gen.Select(AnyEye, AnyGrade, (eye, grade) => (Judgement)new ConsensualResponse(eye, eye.Fellow(), grade)),
        Gen.Select(AnyEye, AnyGrade, (eye, grade) => (Judgement)new NearResponse(eye, grade)),
        Gen.Select(
            Gen.Int[2, 3],
            Gen.Int[1, 4],
            Gen.Int[1, 3],
            (dwell, finding, pupils) =>
                (Judgement)new SwingOutcome((Block)dwell, (SwingFinding)finding, (PupilsObserved)pupils)
        ),
        AnyEye.Select(eye => (Judgement)new SlowToDilate(eye))
    );

    [Fact]
    public void What_is_written_is_read_back_as_the_same_judgement() =>
        AnyJudgement.Sample(judgement =>
        {
            var read = Assert.Single(JudgementSyntax.Read(JudgementSyntax.Write(judgement)));
            Assert.Equal(judgement, read);
        });

    [Fact]
    public void Capitals_and_blanks_do_not_matter() =>
        AnyJudgement.Sample(judgement =>
        {
            var text = JudgementSyntax.Write(judgement);
            Assert.Equal(
                judgement,
                Assert.Single(JudgementSyntax.Read("  " + text.ToUpperInvariant().Replace(" ", "   ")))
            );
            Assert.Equal(judgement, Assert.Single(JudgementSyntax.Read(text.ToLowerInvariant() + "\t")));
        });

    [Fact]
    public void Examples_mean_what_they_say()
    {
        Assert.Equal([new DirectResponse(Eye.Right, Grade.Of(3))], JudgementSyntax.Read("direct OD 3"));
        Assert.Equal([new NearResponse(Eye.Left, Grade.FromHalfSteps(5))], JudgementSyntax.Read("near left 2.5"));
        Assert.Equal(
            [new ShapeJudgement(Eye.Right, PupilShape.Round), new ShapeJudgement(Eye.Left, PupilShape.Round)],
            JudgementSyntax.Read("shape both round")
        );
        Assert.Equal(
            [new SwingOutcome(Block.SwingShort, SwingFinding.Alike, PupilsObserved.Both)],
            JudgementSyntax.Read("swing short alike")
        );
        Assert.Equal(
            [new SwingOutcome(Block.SwingLong, SwingFinding.RightWorse, PupilsObserved.Both)],
            JudgementSyntax.Read("swing long worse OD")
        );
        Assert.Equal(
            [new SwingOutcome(Block.SwingLong, SwingFinding.LeftWorse, PupilsObserved.Right)],
            JudgementSyntax.Read("swing long worse OS pupil OD")
        );
        Assert.Equal(
            [new ConsensualResponse(Eye.Right, Eye.Left, Grade.Of(2))],
            JudgementSyntax.Read("consensual lit OD 2")
        );
        Assert.Equal(
            [new NearResponse(Eye.Right, Grade.Of(4)), new NearResponse(Eye.Left, Grade.Of(4))],
            JudgementSyntax.Read("near OU 4")
        );
        Assert.Equal([new SlowToDilate(Eye.Left)], JudgementSyntax.Read("slow-to-dilate OS"));
    }

    [Theory]
    [InlineData("could-not-see direct OD", "direct OD could-not-see")]
    [InlineData("could-not-see shape OS", "shape OS could-not-see")]
    [InlineData("could-not-see swing short", "swing short could-not-see")]
    [InlineData("could-not-see near left", "near OS ?")]
    public void Not_having_seen_may_be_said_first(string first, string last) =>
        Assert.Equal(JudgementSyntax.Read(last), JudgementSyntax.Read(first));

    [Theory]
    [InlineData("", "Nothing was typed")]
    [InlineData("direct", "the eye is missing; give OD, OS or both")]
    [InlineData("direct OD", "the grade is missing; give 0 to 4 in half steps, or could-not-see")]
    [InlineData("direct OX 3", "'OX' is no eye; give OD, OS or both")]
    [InlineData("direct OD 5", "'5' is no grade")]
    [InlineData("direct OD -1", "'-1' is no grade")]
    [InlineData("direct OD 2.25", "'2.25' is no grade")]
    [InlineData("direct OD 3 4", "'4' is too much after 'direct OD 3'; leave it out")]
    [InlineData("shape OD square", "'square' is no pupil shape; give one of: round, not-round, could-not-see")]
    [InlineData("swing medium alike", "'medium' is no dwell; give one of: short, long")]
    [InlineData("swing short", "the outcome is missing; give alike, worse OD, worse OS or could-not-see")]
    [InlineData("swing short better", "'better' is no outcome of swinging")]
    [InlineData("swing short worse both", "'both' is no eye; give one of: OD, OS")]
    [InlineData("consensual OD 2", "names the eye that was lit")]
    [InlineData("normal", "'normal' is nothing that is judged")]
    [InlineData("could-not-see", "what is judged is missing")]
    public void What_is_wrong_is_said_with_what_is_possible(string text, string expected)
    {
        var problem = Assert.Throws<EntryProblemException>(() => JudgementSyntax.Read(text));

        Assert.Contains(expected, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_typed_does_anything_but_read_or_explain() =>
        Gen.OneOf(Gen.String, Gen.String[Gen.Char[" ODSdirectshape0123.5?-"], 0, 40])
            .Sample(text =>
            {
                try
                {
                    Assert.InRange(JudgementSyntax.Read(text).Count, 1, 2);
                }
                catch (EntryProblemException problem)
                {
                    Assert.NotEmpty(problem.Message);
                }
            });

    [Fact]
    public void A_line_far_too_long_is_refused() =>
        Assert.Contains(
            "at most 200 characters",
            Assert.Throws<EntryProblemException>(() => JudgementSyntax.Read(new string('a', 201))).Message,
            StringComparison.Ordinal
        );
}
