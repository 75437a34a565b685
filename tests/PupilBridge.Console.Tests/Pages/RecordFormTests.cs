using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class RecordFormTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Fact]
    public async Task A_note_is_entered_with_the_id_that_stood_in_the_form_and_the_page_says_so_once()
    {
        var page = await browser.GoAsync("/exams/2001");
        var id = page.QuerySelector("#note input[name=entryId]")!.GetAttribute("value");
        var next = await browser.SendFormAsync(page, "#note", ("text", "Seen <twice>."));
        var note = Assert.IsType<NoteEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            (id, 2001L, "Seen <twice>.", "drv", "0.0-test"),
            (note.EntryId, note.Exam, note.Text, note.Who, note.ProgramVersion)
        );
        Assert.Equal("/exams/2001", browser.At);
        Assert.Equal("The note is recorded.", next.QuerySelector(".said")!.TextContent);
        Assert.Null((await browser.GoAsync("/exams/2001")).QuerySelector(".said"));
    }

    [Fact]
    public async Task A_form_sent_twice_carries_one_id_and_says_that_nothing_was_recorded_twice()
    {
        var page = await browser.GoAsync("/exams/2001");
        await browser.SendFormAsync(page, "#note", ("text", "Once."));
        browser.House.Outcome = _ => new EntryOutcome.AlreadyRecorded(9001, 2001);
        var again = await browser.SendFormAsync(page, "#note", ("text", "Once."));
        Assert.Equal(2, browser.House.Entered.Count);
        Assert.Single(browser.House.Entered.Select(entry => entry.EntryId).Distinct());
        Assert.Contains(
            "not recorded a second time",
            again.QuerySelector(".said")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_refused_note_stands_there_again_with_the_reason_and_all_that_was_typed()
    {
        browser.House.Outcome = _ => new EntryOutcome.Refused("The journal is full.", "Free some room.");
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, "#note", ("text", "A long & careful remark"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(
            "The journal is full. Free some room.",
            again.QuerySelector("#note [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("A long & careful remark", again.QuerySelector("#note textarea")!.TextContent);
        Assert.True(again.QuerySelector("#deed-note")!.HasAttribute("open"));
        Assert.Null(again.QuerySelector(".said"));
    }

    [Fact]
    public async Task What_the_desk_notes_beside_a_recorded_entry_is_said()
    {
        browser.House.Outcome = _ => new EntryOutcome.Recorded(9, 2001) { Notice = "It does not count yet." };
        var page = await browser.GoAsync("/exams/2001");
        var next = await browser.SendFormAsync(page, "#judge", ("what", "direct OD"), ("how", "2.5"));
        Assert.Equal("direct OD 2.5", Assert.IsType<JudgementEntry>(browser.House.Entered.Single()).Judgement);
        Assert.Contains("It does not count yet.", next.QuerySelector(".said")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("direct OS", "round", "Choose a grade")]
    [InlineData("shape OD", "3", "Choose round")]
    [InlineData("swing short", "0.5", "Choose alike")]
    [InlineData("slow-to-dilate OS", "1", "Leave this at")]
    [InlineData("near OD", "", "Choose a grade")]
    public async Task A_judgement_that_does_not_fit_is_refused_beside_its_field(string what, string how, string words)
    {
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, "#judge", ("what", what), ("how", how));
        Assert.Empty(browser.House.Entered);
        Assert.Contains(words, again.QuerySelector("#judge-how-wrong")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(what, again.QuerySelector("#judge-what option[selected]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task An_exam_is_moved_split_withdrawn_from_and_given_eye_statuses()
    {
        var page = await browser.GoAsync("/exams/2001");
        await browser.SendFormAsync(page, "#whose", ("patient", "Q-1002"), ("reason", "Wrong one chosen."));
        await browser.SendFormAsync(page, "#split", ("from", "2070"), ("reason", "Two patients in one."));
        await browser.SendFormAsync(page, "#withdraw", ("withdrawn", SampleExams.Id(2070)), ("reason", ""));
        await browser.SendFormAsync(
            page,
            "#eye-status",
            ("eye", "OS"),
            ("conditions", "patch"),
            ("conditions", "drops")
        );
        Assert.Collection(
            browser.House.Entered,
            entry =>
                Assert.Equal(("Q-1002", "Wrong one chosen."), (((MoveEntry)entry).Patient, ((MoveEntry)entry).Reason)),
            entry =>
                Assert.Equal((2070L, "Two patients in one."), (((SplitEntry)entry).From, ((SplitEntry)entry).Reason)),
            entry =>
                Assert.Equal(
                    (SampleExams.Id(2070), null),
                    (((WithdrawEntry)entry).Withdrawn, ((WithdrawEntry)entry).Reason)
                ),
            entry => Assert.Equal(["patch", "drops"], ((EyeStatusEntry)entry).Conditions)
        );
    }

    [Fact]
    public async Task An_exam_of_nobody_is_attached_and_made_ready_and_what_is_missing_is_accepted()
    {
        var page = await browser.GoAsync("/exams/2400");
        Assert.Contains(
            "Still to come: shape.",
            page.QuerySelector("#deed-ready")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Empty(page.QuerySelectorAll("#not-examined input[checked]"));
        await browser.SendFormAsync(page, "#whose", ("patient", "Q-1003"), ("reason", ""));
        await browser.SendFormAsync(page, "#not-examined", ("steps", "shape"), ("steps", "direct"));
        await browser.SendFormAsync(page, "#ready");
        Assert.Collection(
            browser.House.Entered,
            entry => Assert.Equal("Q-1003", Assert.IsType<AttachEntry>(entry).Patient),
            entry => Assert.Equal(["shape", "direct"], Assert.IsType<NotExaminedEntry>(entry).Steps),
            entry => Assert.IsType<MakeReadyEntry>(entry)
        );
    }

    [Fact]
    public async Task An_exam_is_not_given_to_somebody_unknown_and_the_reason_stays_typed()
    {
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, "#whose", ("patient", "Q-9999"), ("reason", "Wrong one chosen."));
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            "No patient ‘Q-9999’ is known",
            again.QuerySelector("#whose-patient-wrong")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("Wrong one chosen.", again.QuerySelector("#whose textarea")!.TextContent);
    }

    [Fact]
    public async Task An_exam_is_not_moved_to_the_patient_who_has_it()
    {
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, "#whose", ("patient", "Q-1001"), ("reason", "Wrong one chosen."));
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            "attached to Q-1001 already",
            again.QuerySelector("#whose-patient-wrong")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("#whose", "patient", "Q-1002")]
    [InlineData("#split", "from", "2070")]
    [InlineData("#set-aside", "none", "")]
    public async Task What_needs_a_reason_is_not_done_without_one(string form, string field, string value)
    {
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, form, (field, value), ("reason", "  "));
        Assert.Empty(browser.House.Entered);
        Assert.Contains("Say why", again.QuerySelector($"{form} .wrong-words")!.TextContent, StringComparison.Ordinal);
    }

    public void Dispose() => browser.Dispose();
}
