using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Tests.Entries.Codec;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>Whatever comes after a signature, what was signed stays, and nothing that was judged changes.</summary>
public class SealedPropertyTests
{
    private const string UpToSignature =
        "meet A; bright; open Q-1001; +1000; mode measure; +500; pair R 3200; pair L 3150; shape R round; shape L round;"
        + "mode hold direct; directs; direct R 3; direct L 1; status R drops; note n; mode idle; +1000; ready; +1000;"
        + "sign 1 first record; +1000";

    // Both lists hold what changes an exam where it may: late events of its own time as well as people's entries.
    private static readonly string[] Late =
    [
        "shape R notround",
        "direct R 0",
        "direct L 4",
        "status L patch",
        "note later",
        "accept Near",
        "move Q-9",
        "attach Q-8",
        "say dim",
        "ready",
        "aside",
        "sign 2",
        "sign 1",
        "undo a",
        "undo b",
        "undo c",
        "undo d",
        "split a",
        "split b",
        "release",
        "mode measure",
        "pair R 4000",
        "stim L 1000",
        "+1000",
        "+700000",
        "off",
        "boot",
        "gap 2",
        "lost rest",
        "conflict",
        "fault",
        "meet B",
        "silence",
        "open Q-7",
        "line lost",
    ];

    private static readonly string[] Amending = ["amend", "amend", "sign 2", "sign 3"];

    private static readonly string[] UpToSignatureWithLabels =
    [
        "meet A",
        "bright",
        "first: open Q-1001",
        "+1000",
        "mode measure",
        "pair R 3200",
        "pair L 3150",
        "a: shape R round",
        "b: shape L round",
        "mode hold direct",
        "directs",
        "c: direct R 3",
        "direct L 1",
        "hold",
        "lamp L on",
        "+900",
        "lamp L off",
        "bright",
        "pair R 3900",
        "+1000",
        "d: ready",
        "+1000",
        "sign 1 first record",
    ];

    [Fact]
    public void No_entry_of_any_kind_changes_what_was_signed_or_judged_unless_an_amendment_was_begun()
    {
        var signed = Script.Journal(UpToSignature);
        var was = Folded.Of(signed).Exam;
        Assert.True(was.IsSealed);
        var aimed = EntryGen.Any.Where(e => e is not AmendmentBegun).Select(entry => Aim(entry, was));
        var refused = 0;
        aimed
            .Array[1, 12]
            .Sample(
                entries =>
                {
                    var journal = signed.Concat(
                        entries.Select((e, i) => new SequencedEntry(new(signed.Count + 1 + i), e))
                    );
                    var exam = Folded.Of([.. journal]).Exams[was.Id];
                    AssertSame(was, exam);
                    if (exam.Incidents.Count + exam.RefusedJudgements.Count > was.Incidents.Count)
                        Interlocked.Increment(ref refused);
                },
                iter: 3_000
            );
        // A check in which nothing ever reached the exam would prove nothing.
        Assert.True(refused > 500, $"entries that reached the exam: {refused}");
    }

    [Fact]
    public void No_order_of_late_events_and_entries_changes_what_was_signed_or_judged_and_what_joins_is_told_of()
    {
        var was = Run([]);
        var joined = 0;
        Gen.Int[0, Late.Length - 1]
            .Array[1, 25]
            .Sample(
                picks =>
                {
                    var exam = Run([.. picks.Select(i => Late[i])]);
                    AssertSame(was, exam);
                    var isLarger = exam.Captures.Count > was.Captures.Count || exam.Stimuli.Count > was.Stimuli.Count;
                    if (!isLarger)
                        return;
                    Interlocked.Increment(ref joined);
                    Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.ArrivedAfterSigning);
                },
                iter: 3_000
            );
        Assert.True(joined > 200, $"exams that late events joined: {joined}");
    }

    [Fact]
    public void What_was_signed_stays_whatever_is_entered_in_amendments()
    {
        var versions = 0;
        Gen.OneOf(
                Gen.Int[0, Late.Length - 1].Select(i => Late[i]),
                Gen.Int[0, Amending.Length - 1].Select(i => Amending[i])
            )
            .Array[1, 30]
            .Sample(
                commands =>
                {
                    var exam = Run(commands);
                    Assert.Equal("first record", exam.SignedVersions[0].Record);
                    Assert.Equal(
                        Enumerable.Range(1, exam.SignedVersions.Count),
                        exam.SignedVersions.Select(v => v.Version)
                    );
                    var open = exam.Course.Count(c => c.Kind == CourseKind.AmendmentBegun);
                    Assert.True(exam.SignedVersions.Count <= 1 + open);
                    if (exam.SignedVersions.Count > 1)
                        Interlocked.Increment(ref versions);
                },
                iter: 3_000
            );
        Assert.True(versions > 100, $"exams signed anew: {versions}");
    }

    private static void AssertSame(Exam was, Exam exam)
    {
        Assert.Equal(was.SignedVersions, exam.SignedVersions);
        Assert.Equal(was.Judgements, exam.Judgements);
        Assert.Equal(was.EyeStatuses, exam.EyeStatuses);
        Assert.Equal(was.Notes, exam.Notes);
        Assert.Equal(was.Patient, exam.Patient);
        Assert.Contains(exam.Status, new[] { ExamStatus.Signed, ExamStatus.SetAside });
    }

    private static Exam Run(string[] after)
    {
        var commands = new ScriptCommands();
        foreach (var command in UpToSignatureWithLabels)
            commands.Do(command);
        var id = commands.LastExamOf(commands.LaneOf("Q7"))!.Value;
        foreach (var command in after)
            commands.Do(IsAboutAnExam(command) ? $"{command} exam=first" : command);
        return Folded.Of(commands.Journal).Exams[id];
    }

    private static bool IsAboutAnExam(string command) =>
        command.Split(' ')[0]
            is "shape"
                or "direct"
                or "status"
                or "note"
                or "accept"
                or "move"
                or "attach"
                or "say"
                or "ready"
                or "aside"
                or "sign"
                or "amend"
                or "undo"
                or "split";

    /// <summary>The entry as if it had been meant for the signed exam and its instrument.</summary>
    private static JournalEntry Aim(JournalEntry entry, Exam exam) =>
        entry switch
        {
            EntryWithdrawn e => e with
            {
                Exam = exam.Id,
                Withdrawn = exam.EntryIds[(int)(e.Withdrawn.Value % (UInt128)exam.EntryIds.Count)],
            },
            ExamSplit e => e with { Exam = exam.Id, From = new(exam.Id.Value + (e.From.Value & 31)) },
            ExamEntry e => e with { Exam = exam.Id },
            InstrumentReported e => e with { Serial = exam.Serial, Boot = new BootNumber(1) },
            EventsLost e => e with { Serial = exam.Serial },
            EventsConflict e => e with { Serial = exam.Serial },
            _ => entry,
        };
}
