using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class SigningTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_record_is_signed_as_it_was_seen()
    {
        var exam = await clinic.ReadyExamAsync();
        var seen = await clinic.RecordAsync(exam);

        await clinic.CountsAsync(clinic.Signature(exam, seen.DraftDigest));

        var record = await clinic.RecordAsync(exam);
        var version = Assert.Single(record.SignedVersions);
        Assert.Equal(
            ("signed", 1, "DR", null),
            (record.Exam.Summary.Status, version.Version, version.Who, version.Reason)
        );
        Assert.Equal(seen.DraftDigest, version.Digest);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(version.Record))), version.Digest);
        Assert.Equal(seen.Exam.Chart.Line, version.ChartLine);
        Assert.Equal(seen.Exam.Chart.Block, version.ChartBlock);
        Assert.Equal("Q-1001", SignedRecordText.Read(version.Record).Patient);
        Assert.Equal("signed", record.Course[^1].Words);
        Assert.Null(record.DraftDigest);
        Assert.Contains("was signed by DR on 2026-03-02", record.CannotSign, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_changed_since_it_was_seen_must_be_seen_first()
    {
        var exam = await clinic.ReadyExamAsync();
        var seen = (await clinic.RecordAsync(exam)).DraftDigest;
        await clinic.CountsAsync(clinic.Note(exam, "seen again at noon"));

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Signature(exam, seen)));

        Assert.Equal($"Exam {exam} has changed since you looked at it.", refused.Reason);
        Assert.StartsWith("Look at it again", refused.NextStep, StringComparison.Ordinal);
        Assert.DoesNotContain(clinic.House.Journal, entry => entry is ExamSigned);
        await clinic.CountsAsync(clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest));
    }

    [Fact]
    public async Task What_comes_between_looking_and_recording_is_not_signed_either()
    {
        var exam = await clinic.ReadyExamAsync();
        var signature = clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest);
        clinic.House.JustBeforeRecording = () =>
        {
            clinic.House.JustBeforeRecording = null;
            clinic.House.Add(
                new NoteEntered
                {
                    Id = new EntryId(4711),
                    Who = new PersonId("MK"),
                    At = UtcTime.From(clinic.Instrument.Now),
                    ProgramVersion = "0.1.0",
                    Exam = new ExamId(exam),
                    Text = "at the same moment",
                }
            );
        };

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(signature));
        var again = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(signature));

        Assert.EndsWith("It was not signed.", refused.Reason, StringComparison.Ordinal);
        Assert.Equal(refused, again);
        Assert.Empty((await clinic.RecordAsync(exam)).SignedVersions);
        await clinic.CountsAsync(clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest));
    }

    [Fact]
    public async Task A_signature_that_is_sent_twice_is_one()
    {
        var exam = await clinic.ReadyExamAsync();
        var signature = clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest);

        var first = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(signature));
        var second = Assert.IsType<EntryOutcome.AlreadyRecorded>(await clinic.EnterAsync(signature));

        Assert.Equal((first.Sequence, first.Exam), (second.Sequence, second.Exam));
        Assert.Single(clinic.House.Journal.OfType<ExamSigned>());
    }

    [Fact]
    public async Task An_exam_that_cannot_be_signed_says_why_before_and_when_it_is_tried()
    {
        var unready = await clinic.ExamineAsync();
        await CannotAsync(unready, "is not ready for review yet. Make it ready first");

        var nobodys = await clinic.ReadyExamAsync(patient: null);
        await CannotAsync(nobodys, "is attached to nobody yet. Attach it");

        var aside = await clinic.ReadyExamAsync();
        await clinic.CountsAsync(clinic.SettingAside(aside, "wrong eye"));
        await CannotAsync(aside, "was set aside.");

        var signed = await clinic.SignedExamAsync();
        await CannotAsync(signed, "as version 1. If something is to be put right, begin an amendment.");
    }

    [Fact]
    public async Task An_exam_that_is_not_there_cannot_be_signed()
    {
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Signature(4711, "d")));

        Assert.Equal("There is no exam 4711.", refused.Reason);
    }

    [Fact]
    public async Task No_entry_of_any_kind_changes_a_signed_record()
    {
        var exam = await clinic.SignedExamAsync();
        var before = Assert.Single((await clinic.RecordAsync(exam)).SignedVersions);
        var judged = clinic.House.Journal.OfType<JudgementEntered>().First();
        var tries = Tries(exam, judged.Id).ToList();
        Assert.Contains(tries, entry => entry is JudgementEntry);
        Assert.Equal(typeof(DeskEntry).GetCustomAttributes<JsonDerivedTypeAttribute>().Count(), tries.Count);

        foreach (var entry in tries)
        {
            var outcome = await clinic.EnterAsync(entry);

            var record = await clinic.RecordAsync(exam);
            Assert.Equal(before, Assert.Single(record.SignedVersions));
            // What becomes of its sending is said of a signed record, and changes nothing in it.
            if (entry is ExamDeskEntry and not (AmendEntry or SetAsideEntry or SendingEntry))
            {
                var refused = Assert.IsType<EntryOutcome.Refused>(outcome);
                Assert.Contains("signed", refused.Reason, StringComparison.Ordinal);
                Assert.Contains("amendment", refused.NextStep, StringComparison.Ordinal);
                Assert.Equal("signed", record.Exam.Summary.Status);
                Assert.Equal(before.ChartBlock, record.Exam.Chart.Block);
            }
        }
    }

    [Fact]
    public async Task What_an_instrument_tells_afterwards_is_shown_and_does_not_change_what_was_signed()
    {
        var exam = await clinic.SignedExamAsync();
        var before = Assert.Single((await clinic.RecordAsync(exam)).SignedVersions);

        clinic.House.Add(clinic.Instrument.SwitchOff());
        clinic.House.Add(clinic.Instrument.Met());

        Assert.Equal(before, Assert.Single((await clinic.RecordAsync(exam)).SignedVersions));
    }

    [Fact]
    public async Task The_record_tells_legend_runs_and_swinging()
    {
        var record = await clinic.RecordAsync(await clinic.ReadyExamAsync());

        Assert.Equal(5, record.Legend.Grades.Count);
        Assert.Equal("no constriction seen", record.Legend.Grades[0]);
        Assert.Equal(
            [("direct", 6, 6), ("swing-short", 8, 8), ("swing-long", 8, 8)],
            record.Runs.Select(run => (run.Block, run.Stimuli, run.Wanted))
        );
        Assert.All(record.Runs, run => Assert.Equal((true, "all within tolerance"), (run.HasReachedCount, run.Timing)));
        Assert.Equal("no RAPD seen (short and long dwell)", record.SwingWords);
        Assert.Empty(record.BeforeDrops);
        Assert.Null(record.CannotSign);
        Assert.Equal(64, record.DraftDigest!.Length);
    }

    public void Dispose() => clinic.Dispose();

    private async Task CannotAsync(long exam, string why)
    {
        var record = await clinic.RecordAsync(exam);
        Assert.Null(record.DraftDigest);
        Assert.Contains(why, record.CannotSign, StringComparison.Ordinal);
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Signature(exam, "d")));
        Assert.Contains(why, $"{refused.Reason} {refused.NextStep}", StringComparison.Ordinal);
    }

    /// <summary>One of each kind there is; beginning an amendment and setting aside, which are allowed, come last.</summary>
    private IEnumerable<DeskEntry> Tries(long exam, EntryId judgement)
    {
        var kinds = typeof(DeskEntry)
            .Assembly.GetTypes()
            .Where(type => type.IsSubclassOf(typeof(DeskEntry)) && !type.IsAbstract)
            .OrderBy(type =>
                type == typeof(SetAsideEntry) ? 2
                : type == typeof(AmendEntry) ? 1
                : 0
            )
            .ThenBy(type => type.Name, StringComparer.Ordinal);
        foreach (var kind in kinds)
        {
            // A name that the type does not have is ignored, so one text fits all kinds.
            var text = $$"""
                {"entryId":"{{clinic.NewId()}}","who":"MK","at":"2026-03-02T09:00:00Z","programVersion":"0.1.0",
                "exam":{{exam}},"patient":"Q-1002","orderedBy":"DPO","instrument":"QA-0001","reason":"r","from":{{exam
                    + 5}},"light":"dim",
                "fixation":"near","eye":"OD","conditions":{{(kind == typeof(BeginRunEntry) ? "\"dry\"" : "[\"drops\"]")}},
                "name":"n","certificateNumber":"c","certifiedBy":"b","certified":"2026-01-01","discs":{{(
                    kind == typeof(BeginRunEntry) ? "null" : "[]"
                )}},"run":{{exam}},"reading":2,"isSetAside":true,"isFinished":true,"kind":"timing","rightLux":[],"leftLux":[],"stepLux":1,"judgement":"direct OD 0","text":"t",
                "beforeEye":"OS","logUnits":0.3,"seen":["alike"],"grade":"II",
                "kept":"Q-1001","merged":"Q-1002","withdrawn":"{{judgement}}","steps":["near"],"seenDigest":"d","version":1,"decision":"retry","day":"2026-03-02",
                "lines":[{"patient":"Q-1001","time":"09:30"}],"source":"list.csv"}
                """;
            yield return (DeskEntry)JsonSerializer.Deserialize(text, kind, ClinicJson.Default)!;
        }
    }
}
