using PupilBridge.Clinic.Records;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class VisitChangesTests
{
    [Fact]
    public void What_says_the_same_is_no_change() =>
        Assert.Empty(
            VisitChanges.Of([Finding("direct-poor", "met", "right")], [Finding("direct-poor", "met", "right")])
        );

    [Fact]
    public void A_verdict_that_differs_is_a_change_of_its_eye_and_light()
    {
        var change = Assert.Single(
            VisitChanges.Of(
                [Finding("direct-poor", "not-met", "right"), Finding("direct-poor", "met", "left")],
                [Finding("direct-poor", "not-met", "right"), Finding("direct-poor", "not-examined", "left")]
            )
        );
        Assert.Equal(
            ("direct-poor", "OS", "not-examined", "met"),
            (change.Criterion, change.Eye, change.From, change.To)
        );
    }

    [Fact]
    public void A_difference_that_was_met_in_another_eye_or_without_one_before_is_a_change()
    {
        var other = VisitChanges.Of(
            [Finding("anisocoria-clinical", "met", "left", "dim")],
            [Finding("anisocoria-clinical", "met", "right", "dim")]
        );
        Assert.Equal(("OS", "met", "met"), (other[0].Eye, other[0].From, other[0].To));
        var fresh = VisitChanges.Of(
            [Finding("anisocoria-clinical", "met", "left", "dim")],
            [
                Finding("anisocoria-clinical", "not-met", null, "dim"),
                Finding("anisocoria-clinical", "met", null, "bright"),
            ]
        );
        Assert.Equal("not-met", Assert.Single(fresh).From);
    }

    [Fact]
    public void A_first_visit_changes_nothing() => Assert.Empty(VisitChanges.Of([Finding("rapd", "met", "left")], []));

    private static RecordFinding Finding(string criterion, string verdict, string? eye, string? light = null) =>
        new()
        {
            Criterion = criterion,
            Verdict = verdict,
            Eye = eye,
            Light = light,
            Sentence = "A sentence.",
        };
}
