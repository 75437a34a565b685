using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class CaptureRulesTests
{
    private const string WithKeys = "meet A; bright; open Q-1001; +1000; mode measure; +500;";
    private const string ByRest = "meet B; bright; open Q-1001; +1000; mode measure; +500;";

    // A diameter as the difference of a scale's two readings: common practice, no source.
    [Theory]
    [InlineData("edge R N 5000; edge R T 8210")]
    [InlineData("edge R T 8210; edge R N 5000")]
    public void Two_marked_edges_in_either_order_are_a_diameter(string edges)
    {
        var capture = Assert.Single(Script.Run(WithKeys + edges).Exam.Captures);
        Assert.Equal(
            (Eye.Right, new Micrometres(3210), CaptureManner.Marked),
            (capture.Eye, capture.Raw, capture.Manner)
        );
        Assert.Equal(
            (new Micrometres(5000), new Micrometres(8210)),
            (capture.Nasal.Position, capture.Temporal.Position)
        );
    }

    [Fact]
    public void On_a_scale_that_grows_towards_the_nose_the_difference_is_taken_the_other_way() =>
        Assert.Equal(new Micrometres(3200), Assert.Single(Script.Run(ByRest + "slide L 3200").Exam.Captures).Raw);

    [Theory]
    [InlineData("edge R N 8000; edge R T 5000", PairRefusalReason.WrongSign)]
    [InlineData("edge R N 8000; edge R T 8100", PairRefusalReason.TooSmall)]
    [InlineData("edge R N 8000; edge R T 28000", PairRefusalReason.TooLarge)]
    [InlineData("edge R N 5000; dim; edge R T 8000", PairRefusalReason.LightChanged)]
    [InlineData("edge R N 5000; fix near; edge R T 8000", PairRefusalReason.FixationChanged)]
    [InlineData("edge R N 5000; mode idle; edge R T 8000", PairRefusalReason.ModeChanged)]
    [InlineData("edge R N 5000; +30001; edge R T 8000", PairRefusalReason.TooLong)]
    [InlineData("edge R N 5000; gap 1; edge R T 8000", PairRefusalReason.EventsLost)]
    [InlineData("edge R N 5000; boot; edge R T 8000", PairRefusalReason.EventsLost)]
    [InlineData("edge R N 5000; lamp L on; edge R T 8000", PairRefusalReason.LampOn)]
    [InlineData("edge R N 5000; ready", PairRefusalReason.ExamEnded)]
    [InlineData("edge R N 5000; edge R N 5010", PairRefusalReason.MarkedAgain)]
    [InlineData("mode hold direct; edge R N 5000", PairRefusalReason.NotMeasuring)]
    public void Edges_that_are_no_pair_are_refused_and_kept_with_the_reason(string edges, object reason)
    {
        var exam = Script.Run(WithKeys + edges).Exam;
        Assert.Empty(exam.Captures);
        var refused = exam.RefusedPairs[0];
        Assert.Equal((PairRefusalReason)reason, refused.Reason);
        Assert.True(refused.Nasal is not null || refused.Temporal is not null);
    }

    [Fact]
    public void Within_the_time_limit_a_slow_pair_is_one() =>
        Assert.Single(Script.Run(WithKeys + "edge R N 5000; +30000; edge R T 8000").Exam.Captures);

    [Fact]
    public void The_edge_that_came_too_late_begins_a_new_pair() =>
        Assert.Equal(
            new Micrometres(3100),
            Assert
                .Single(
                    Script.Run(WithKeys + "edge R N 5000; +31000; edge R T 8000; +500; edge R N 4900").Exam.Captures
                )
                .Raw
        );

    [Fact]
    public void Edges_of_the_two_eyes_may_be_marked_in_turns()
    {
        var exam = Script.Run(WithKeys + "edge R N 5000; edge L N 6000; edge R T 8000; edge L T 9500").Exam;
        Assert.Equal([3000, 3500], exam.Captures.Select(c => c.Raw.Value));
    }

    [Fact]
    public void An_old_edge_never_meets_a_new_one()
    {
        var exam = Script.Run(WithKeys + "pair R 3200; edge R T 9000").Exam;
        Assert.Equal(new Micrometres(3200), Assert.Single(exam.Captures).Raw);
    }

    [Fact]
    public void A_sensor_that_flickers_within_the_same_light_breaks_no_pair() =>
        Assert.Single(
            Script.Run("meet A; lux 300; open; +9; mode measure; edge R N 5000; lux 310; edge R T 8000").Exam.Captures
        );

    [Theory]
    [InlineData("rest R 12800; +500; rest R 16000")] // comes home
    [InlineData("rest R 12800; +500; rest L 12000")] // the other scale moves
    [InlineData("rest R 12800; +500; dim")]
    [InlineData("rest R 12800; +500; fix near")]
    [InlineData("rest R 12800; +500; mode idle")]
    [InlineData("rest R 12800; +500; lamp R on")]
    [InlineData("rest R 12800; +500; off")]
    [InlineData("rest R 12800; +500; ready")]
    public void Without_keys_the_last_rest_is_the_temporal_edge_once_the_scale_goes_on(string script)
    {
        var capture = Script.Run(ByRest + script).Exam.Captures[0];
        Assert.Equal((new Micrometres(3200), CaptureManner.NasalEdgeAtHome), (capture.Raw, capture.Manner));
        Assert.Equal((new Micrometres(16000), RoomLight.Bright), (capture.Nasal.Position, capture.Light!.Value));
    }

    [Fact]
    public void As_long_as_the_scale_may_still_be_corrected_there_is_no_capture()
    {
        var folded = Script.Run(ByRest + "rest R 12800; +500; rest R 12700");
        Assert.Empty(folded.Exam.Captures);
        Assert.Equal(new Micrometres(12700), folded.Book.Lane(new("Q7"))!.Rest!.Away.Position);
    }

    [Fact]
    public void Only_the_last_rest_counts() =>
        Assert.Equal(
            new Micrometres(3300),
            Assert.Single(Script.Run(ByRest + "rest R 12000; rest R 12700; rest R 16000").Exam.Captures).Raw
        );

    [Theory]
    [InlineData("rest R 16000; rest R 16000")] // coming home is never a capture
    [InlineData("rest R 15950; rest R 16000")] // within one step of home
    public void Coming_home_is_never_a_capture(string script)
    {
        var folded = Script.Run(ByRest + script);
        Assert.Empty(folded.Exam.Captures);
        Assert.Empty(folded.Exam.RefusedPairs);
    }

    [Theory]
    [InlineData("rest R 16500", PairRefusalReason.WrongSign)]
    [InlineData("rest R 15700", PairRefusalReason.TooSmall)]
    [InlineData("rest R 1000", PairRefusalReason.TooLarge)]
    [InlineData("mode hold long; rest R 12800", PairRefusalReason.NotMeasuring)]
    [InlineData("lamp R on; rest R 12800", PairRefusalReason.LampOn)]
    public void A_rest_that_can_be_no_pupil_is_none(string script, object reason)
    {
        var exam = Script.Run(ByRest + script + "; rest R 16000").Exam;
        Assert.Empty(exam.Captures);
        Assert.Equal((PairRefusalReason)reason, Assert.Single(exam.RefusedPairs).Reason);
    }

    [Fact]
    public void An_implausible_rest_leaves_the_one_before_it_standing() =>
        Assert.Equal(
            new Micrometres(3200),
            Assert.Single(Script.Run(ByRest + "rest R 12800; rest R 15700; rest R 16000").Exam.Captures).Raw
        );

    [Theory]
    [InlineData("rest R 12800; gap 1; rest R 16000", PairRefusalReason.EventsLost)]
    [InlineData("rest R 12800; +30001; rest R 12700; rest R 16000", PairRefusalReason.TooLong)]
    public void A_rest_whose_end_is_not_known_is_no_capture(string script, object reason)
    {
        var exam = Script.Run(ByRest + script).Exam;
        Assert.Empty(exam.Captures);
        Assert.Equal((PairRefusalReason)reason, exam.RefusedPairs[0].Reason);
    }

    [Fact]
    public void With_keys_a_rest_alone_is_nothing() =>
        Assert.Empty(Script.Run(WithKeys + "rest R 5200; rest R 2000").Exam.Captures);

    [Fact]
    public void Without_an_identity_no_size_is_made_up()
    {
        var exam = Script.Run("open; +9; mode measure; edge R N 5000; edge R T 8000; rest R 9000").Exam;
        Assert.Empty(exam.Captures);
        Assert.All(exam.RefusedPairs, pair => Assert.Equal(PairRefusalReason.ScaleUnknown, pair.Reason));
        Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.IdentityUnknown);
    }

    [Fact]
    public void A_later_capture_of_the_same_eye_and_light_goes_before_the_earlier_and_keeps_it()
    {
        var exam = Script.Run(WithKeys + "pair R 3200; pair L 3100; pair R 3300").Exam;
        var size = PupilSizes.Of(exam, Eye.Right, RoomLight.Bright)!;
        Assert.Equal((3.3, 1), (size.Diameter.Millimetres, size.Superseded));
        Assert.Equal(0, PupilSizes.Of(exam, Eye.Left, RoomLight.Bright)!.Superseded);
        Assert.Equal(3, exam.Captures.Count);
    }

    [Fact]
    public void Another_light_supersedes_nothing()
    {
        var exam = Script.Run(WithKeys + "pair R 3200; dim; pair R 5100").Exam;
        Assert.Equal(3.2, PupilSizes.Of(exam, Eye.Right, RoomLight.Bright)!.Diameter.Millimetres);
        Assert.Equal(5.1, PupilSizes.Of(exam, Eye.Right, RoomLight.Dim)!.Diameter.Millimetres);
    }

    [Fact]
    public void A_size_with_near_fixation_is_flagged_and_never_takes_the_place_of_one_for_distance()
    {
        var near = Script.Run(WithKeys + "fix near; pair R 2800").Exam;
        Assert.True(PupilSizes.Of(near, Eye.Right, RoomLight.Bright)!.WithNearFixation);
        var both = Script.Run(WithKeys + "pair R 3200; fix near; pair R 2800").Exam;
        var size = PupilSizes.Of(both, Eye.Right, RoomLight.Bright)!;
        Assert.Equal((3.2, false), (size.Diameter.Millimetres, size.WithNearFixation));
    }
}
