using System.Text.Json;
using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.Entries;

public class DeskEntryJsonTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    /// <summary>What other systems read must not change by accident: the names are spelled out here.</summary>
    [Fact]
    public void A_judgement_is_written_with_these_names()
    {
        DeskEntry entry = new JudgementEntry
        {
            EntryId = "00112233445566778899aabbccddeeff",
            Who = "MK",
            At = At,
            ProgramVersion = "0.1.0",
            Exam = 17,
            Judgement = "direct OD 3",
            StepSeen = "direct",
        };

        var json = JsonSerializer.Serialize(entry, ClinicJson.Default.DeskEntry);

        Assert.Equal(
            """{"entry":"judgement","judgement":"direct OD 3","stepSeen":"direct","stimulusSeen":null,"exam":17,"""
                + """
                "entryId":"00112233445566778899aabbccddeeff","who":"MK","at":"2026-03-02T08:00:00+00:00","programVersion":"0.1.0"}
                """,
            json
        );
        Assert.Equal(entry, JsonSerializer.Deserialize(json, ClinicJson.Default.DeskEntry));
    }

    [Fact]
    public void Outcomes_are_written_with_these_names()
    {
        EntryOutcome recorded = new EntryOutcome.Recorded(42, 17);
        EntryOutcome repeated = new EntryOutcome.AlreadyRecorded(42, null);
        EntryOutcome refused = new EntryOutcome.Refused("Exam 17 is closed.", "Open a new exam.");

        Assert.Equal("""{"outcome":"recorded","sequence":42,"exam":17,"notice":null}""", Write(recorded));
        Assert.Equal("""{"outcome":"alreadyRecorded","sequence":42,"exam":null}""", Write(repeated));
        Assert.Equal(
            """{"outcome":"refused","reason":"Exam 17 is closed.","nextStep":"Open a new exam."}""",
            Write(refused)
        );
        foreach (var outcome in new[] { recorded, repeated, refused })
        {
            Assert.Equal(outcome, JsonSerializer.Deserialize(Write(outcome), ClinicJson.Default.EntryOutcome));
        }
    }

    [Fact]
    public void Every_entry_has_a_name_of_its_own_and_comes_back_as_itself()
    {
        foreach (var entry in People.EveryEntry.By("MK"))
        {
            var json = JsonSerializer.Serialize(entry, ClinicJson.Default.DeskEntry);

            Assert.StartsWith("{\"entry\":\"", json, StringComparison.Ordinal);
            Assert.IsType(entry.GetType(), JsonSerializer.Deserialize(json, ClinicJson.Default.DeskEntry));
        }
    }

    private static string Write(EntryOutcome outcome) =>
        JsonSerializer.Serialize(outcome, ClinicJson.Default.EntryOutcome);
}
