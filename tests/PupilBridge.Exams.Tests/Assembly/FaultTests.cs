using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Exams.Tests.Assembly;

public class FaultTests
{
    private const string Begin = "meet A; line connected; bright; open Q-1001; +1000; mode measure; +500; pair R 3200;";

    [Theory]
    [InlineData("gap 3", IncidentKind.EventsLost)]
    [InlineData("lost 3", IncidentKind.EventsLost)]
    [InlineData("lost rest", IncidentKind.EventsLost)]
    [InlineData("hole 3; fix far", IncidentKind.EventsLost)]
    [InlineData("conflict", IncidentKind.Conflict)]
    [InlineData("fault", IncidentKind.InstrumentFault)]
    [InlineData("boot; fix far", IncidentKind.Restarted)]
    [InlineData("line lost", IncidentKind.LineLost)]
    [InlineData("line stalled", IncidentKind.LineStalled)]
    [InlineData("line lost; line connected", IncidentKind.LineBack)]
    [InlineData("raw EV,0000000000000001,9,9,SNEEZE,1", IncidentKind.UnknownEvent)]
    [InlineData("raw garbage", IncidentKind.UnknownEvent)]
    [InlineData("meet B", IncidentKind.IdentityChanged)]
    public void What_goes_wrong_in_mid_exam_shows_in_the_exam_and_ends_it_not(string script, object kind)
    {
        var exam = Script.Run(Begin + script).Exam;
        Assert.Contains(exam.Incidents, i => i.Kind == (IncidentKind)kind);
        Assert.Null(exam.Closing);
        Assert.Single(exam.Captures);
    }

    [Fact]
    public void What_a_lamp_gives_is_kept_and_says_nothing_of_the_eyes()
    {
        var exam = Script.Run(Begin + "raw EV,0000000000000001,9,9,OUTPUT,R,203400").Exam;
        Assert.DoesNotContain(exam.Incidents, i => i.Kind == IncidentKind.UnknownEvent);
        Assert.Single(exam.Captures);
    }

    [Fact]
    public void The_first_connection_is_no_return() =>
        Assert.DoesNotContain(Script.Run(Begin + "fix far").Exam.Incidents, i => i.Kind == IncidentKind.LineBack);

    [Fact]
    public void A_gap_and_the_instruments_word_for_it_are_one_gap()
    {
        var exam = Script.Run(Begin + "lost 3; mode measure; bright; pair L 3100").Exam;
        Assert.Single(exam.Incidents, i => i.Kind == IncidentKind.EventsLost);
        Assert.Equal(2, exam.Captures.Count);
    }

    [Fact]
    public void A_gap_before_the_first_event_of_an_exam_shows_in_the_exam_before_as_well()
    {
        var folded = Script.Run(Begin + "+5000; open Q-1002; +1000; gap 4");
        Assert.All(folded.Exams.Values, e => Assert.Contains(e.Incidents, i => i.Kind == IncidentKind.EventsLost));
    }

    [Fact]
    public void Line_loss_alone_breaks_nothing() =>
        Assert.Equal(
            2,
            Script.Run(Begin + "edge L N 5000; line lost; line connected; edge L T 8000").Exam.Captures.Count
        );

    [Fact]
    public void The_same_event_again_is_ignored_with_the_reason()
    {
        var folded = Script.Run(Begin + "again");
        Assert.Contains("taken already", Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason);
        Assert.Single(folded.Exam.Captures);
    }

    [Fact]
    public void Events_of_a_boot_that_ended_are_not_taken_again()
    {
        var folded = Script.Run(Begin + "boot; fix far; boot 1; fix near");
        Assert.Contains(
            folded.Changes.OfType<EntryIgnored>(),
            i => i.Reason.Contains("taken already", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void After_a_restart_the_exam_goes_on_once_the_light_is_said()
    {
        var exam = Script.Run(Begin + "boot; bright; mode measure; pair L 3100").Exam;
        Assert.NotNull(PupilSizes.Of(exam, Instrument.Eye.Left, Exams.Entries.RoomLight.Bright));
    }

    [Fact]
    public void An_entry_that_was_applied_already_is_ignored()
    {
        var journal = Script.Journal(Begin);
        var folded = Folded.Of([.. journal, journal[^1]]);
        Assert.Equal(Script.Run(Begin).Exam, folded.Exam);
        Assert.Contains("applied already", ((EntryIgnored)folded.Changes[^1]).Reason);
    }
}
