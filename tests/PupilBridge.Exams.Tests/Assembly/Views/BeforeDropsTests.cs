using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly.Views;

public class BeforeDropsTests
{
    private const string Begin = "meet A; start 1; lux 300; open Q-1001; +1000; mode measure; +500;";

    private static string Whole(
        int rightBright = 3200,
        int leftBright = 3150,
        int rightDim = 5100,
        int leftDim = 5050,
        string direct = "direct R 3; direct L 3",
        string swing = "alike",
        string end = "ready"
    ) =>
        Begin
        + $"pair R {rightBright}; pair L {leftBright}; lux 1; +40000; pair R {rightDim}; pair L {leftDim}; shape R round; shape L round;"
        + $"mode hold direct; +500; directs; {direct}; mode hold short; +500; swings 1000 4 R; swing short {swing};"
        + $"mode hold long; +500; swings 3000 4 L; swing long {swing}; mode idle; +500; {end}";

    private static EarlierVisit Visit(double? bright, double? dim) => new(new(1), new(1), bright, dim);

    [Fact]
    public void A_whole_exam_with_nothing_remarkable_gives_no_reason() =>
        Assert.Empty(BeforeDrops.Of(Script.Run(Whole()).Exam, []));

    [Theory]
    [InlineData("direct R 1; direct L 3; near R 3; near L 3", Eye.Right)]
    [InlineData("direct R 3; direct L 0; near R 3; near L 3", Eye.Left)]
    public void A_poor_direct_response_is_a_reason(string direct, object eye)
    {
        var exam = Script.Run(Whole(direct: "mode hold near; " + direct)).Exam;
        var reason = Assert.Single(BeforeDrops.Of(exam, []));
        Assert.Equal((BeforeDropsKind.PoorDirect, (Eye?)(Eye)eye), (reason.Kind, reason.Eye));
        Assert.InRange(reason.Grade!.Value.HalfSteps!.Value, 0, 2);
    }

    [Theory]
    [InlineData("direct R 1.5; direct L 3")]
    [InlineData("direct R ?; direct L 3")]
    [InlineData("x: direct R 0; undo x; direct R 3; direct L 3")]
    public void A_better_one_or_one_not_seen_is_none(string direct) =>
        Assert.Empty(BeforeDrops.Of(Script.Run(Whole(direct: direct)).Exam, []));

    [Fact]
    public void An_eye_that_lets_go_is_a_reason_and_so_are_outcomes_that_disagree()
    {
        var seen = Assert.Single(BeforeDrops.Of(Script.Run(Whole(swing: "L")).Exam, []));
        Assert.Equal((BeforeDropsKind.SwingAsymmetry, (Eye?)Eye.Left), (seen.Kind, seen.Eye));
        var disagree = Script.Run(Whole(swing: "L", end: "swing long alike; ready")).Exam;
        Assert.Equal(
            (BeforeDropsKind.SwingAsymmetry, (Eye?)null),
            (Assert.Single(BeforeDrops.Of(disagree, [])).Kind, BeforeDrops.Of(disagree, [])[0].Eye)
        );
    }

    [Fact]
    public void Unequal_sizes_are_new_not_known_grown_or_no_reason_by_the_earlier_visits()
    {
        var exam = Script.Run(Whole(leftDim: 6000)).Exam; // the left one is larger by 0.9 mm in dim light
        BeforeDropsKind? With(params EarlierVisit[] visits) => BeforeDrops.Of(exam, visits).SingleOrDefault()?.Kind;

        Assert.Equal(BeforeDropsKind.AnisocoriaNotKnownBefore, With());
        Assert.Equal(BeforeDropsKind.AnisocoriaNotKnownBefore, With(Visit(0.1, null)));
        Assert.Equal(BeforeDropsKind.AnisocoriaNew, With(Visit(null, -0.3)));
        Assert.Equal(BeforeDropsKind.AnisocoriaNew, With(Visit(null, 0.9))); // the other way round
        Assert.Null(With(Visit(null, -0.6)));
        Assert.Null(With(Visit(null, -0.1), Visit(null, -0.6)));
        Assert.Equal(BeforeDropsKind.AnisocoriaGrown, With(Visit(null, -0.45)));
    }

    [Fact]
    public void A_reason_of_sizes_holds_the_numbers()
    {
        var reason = Assert.Single(BeforeDrops.Of(Script.Run(Whole(rightBright: 4200)).Exam, []));
        Assert.Equal((Eye?)Eye.Right, reason.Eye);
        Assert.Equal((RoomLight.Bright, true), (reason.Light!.Value, reason.IsSure));
        Assert.Equal(1.05, reason.DifferenceMillimetres!.Value, 3);
        Assert.Equal(0.4, reason.LimitMillimetres!.Value, 3);
        Assert.Equal(0.283, reason.ExpandedUncertaintyMillimetres!.Value, 3);
    }

    [Theory]
    [InlineData(3150 + 400, 0)] // at the limit
    [InlineData(3150 + 410, 1)] // beyond it, and not surely
    public void What_lies_beyond_the_limit_counts_even_where_it_cannot_be_told_surely(int right, int reasons)
    {
        var found = BeforeDrops.Of(Script.Run(Whole(rightBright: right)).Exam, []);
        Assert.Equal(reasons, found.Length);
        Assert.All(found, r => Assert.False(r.IsSure));
    }

    [Fact]
    public void Dim_sizes_that_cannot_be_compared_are_never_sure()
    {
        var exam = Script
            .Run(Begin + "dim; +1000; edge R N 5000; edge R T 9000; +15000; edge L N 5000; edge L T 11000")
            .Exam;
        Assert.Equal(EqualityObstacle.DarkUnequalAndUnsettled, SizeEquality.Of(exam, RoomLight.Dim).Obstacle);
        Assert.False(Assert.Single(BeforeDrops.Of(exam, [])).IsSure);
    }

    [Fact]
    public void What_was_not_examined_is_a_reason_once_the_exam_is_over_accepted_or_not()
    {
        Assert.Empty(BeforeDrops.Of(Script.Run(Begin + "pair R 3200; pair L 3150").Exam, []));
        var over = Script.Run(Begin + "pair R 3200; pair L 3150; accept SizesDim; ready").Exam;
        var reasons = BeforeDrops.Of(over, []);
        Assert.All(reasons, r => Assert.Equal(BeforeDropsKind.Incomplete, r.Kind));
        Assert.Equal(
            [ExamStep.SizesDim, ExamStep.Shape, ExamStep.Direct, ExamStep.SwingShort, ExamStep.SwingLong],
            reasons.Select(r => r.Step!.Value)
        );
    }

    [Fact]
    public void Near_that_is_due_and_not_examined_is_missing_as_well()
    {
        var kinds = BeforeDrops.Of(Script.Run(Whole(direct: "direct R 0; direct L 3")).Exam, []);
        Assert.Equal([BeforeDropsKind.PoorDirect, BeforeDropsKind.Incomplete], kinds.Select(r => r.Kind));
        Assert.Equal(ExamStep.Near, kinds[1].Step);
    }

    [Fact]
    public void An_exam_set_aside_gives_no_reason() =>
        Assert.Empty(BeforeDrops.Of(Script.Run(Begin + "pair R 3200; aside").Exam, []));

    [Fact]
    public void Only_exams_that_were_made_ready_tell_of_earlier_visits_and_only_where_sizes_can_be_compared()
    {
        Assert.Null(EarlierVisit.Of(Script.Run(Begin + "pair R 3200; pair L 3150").Exam));
        Assert.Null(EarlierVisit.Of(Script.Run(Whole(end: "ready; aside")).Exam));
        var ready = EarlierVisit.Of(Script.Run(Whole()).Exam)!;
        Assert.Equal(0.05, ready.Difference(RoomLight.Bright)!.Value, 3);
        Assert.Equal(0.05, ready.Difference(RoomLight.Dim)!.Value, 3);
        Assert.Equal(ready, EarlierVisit.Of(Script.Run(Whole(end: "ready; sign 1")).Exam));
        var drops = EarlierVisit.Of(Script.Run(Whole(end: "status R drops; ready")).Exam)!;
        Assert.Equal((null, null), (drops.BrightDifferenceMillimetres, drops.DimDifferenceMillimetres));
    }

    [Fact]
    public void Later_visits_and_the_exam_itself_are_passed_over()
    {
        var exam = Script.Run(Whole(leftDim: 6000)).Exam;
        var itself = EarlierVisit.Of(exam)!;
        var later = Visit(null, -0.9) with { OpenedAt = exam.Opening.When.At.PlusMilliseconds(1) };
        Assert.Equal(
            BeforeDropsKind.AnisocoriaNotKnownBefore,
            Assert.Single(BeforeDrops.Of(exam, [itself, later])).Kind
        );
    }
}
