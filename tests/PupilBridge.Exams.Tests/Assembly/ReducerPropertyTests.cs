using CsCheck;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Tests.Scripts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>What must hold for any journal whatever, in any order of any events and entries.</summary>
public class ReducerPropertyTests
{
    // Commands that can be mirrored, so that left and right are treated alike; times in between as well.
    private static readonly string[] Plain =
    [
        "meet A",
        "meet B",
        "bright",
        "dim",
        "lux 300",
        "lux 60",
        "lux 2",
        "mode idle",
        "mode measure",
        "mode measure",
        "mode sequence direct",
        "mode hold direct",
        "mode hold short",
        "mode hold long",
        "mode hold near",
        "fix near",
        "fix far",
        "lens in",
        "off",
        "boot",
        "fault",
        "gap 2",
        "hole 2",
        "lost 2",
        "lost rest",
        "conflict",
        "line lost",
        "line connected",
        "silence",
        "again",
        "raw junk",
        "open Q-1",
        "open",
        "unsure 0",
        "unsure 3000",
        "hold",
        "release",
        "release",
        "@Z dim",
        "@Z mode measure",
        "+100",
        "+1000",
        "+3000",
        "+40000",
        "+700000",
        "start 2",
        "profile p",
        "patient Q-3",
    ];

    private static readonly string[] OfOneEye =
    [
        "edge R N 5000",
        "edge R T 9000",
        "edge R T 1000",
        "pair R 3200",
        "pair R 5100",
        "slide R 4000",
        "rest R 12000",
        "rest R 16000",
        "lamp R on",
        "lamp R off",
        "stim R 1000",
        "stim R 3000",
        "swings 1000 4 R",
        "swings 3000 4 R",
    ];

    private static readonly string[] OfAnExam =
    [
        "shape R round",
        "shape R notround",
        "direct R 3",
        "direct R 0",
        "direct R ?",
        "near R 3",
        "consensual R 2",
        "slow R",
        "swing short R",
        "swing long R",
        "swing short alike",
        "swing long alike",
        "swing long ?",
        "status R drops",
        "status R prosthesis",
        "say bright",
        "say dim",
        "say near",
        "say far",
        "attach Q-2",
        "move Q-4",
        "ready",
        "aside",
        "note n",
        "accept Near SizesDim",
        "ready",
        "sign 1",
        "sign 2",
        "amend",
    ];

    private static readonly Gen<string> AnyCommand = Gen.OneOf(
        Gen.Int[0, Plain.Length - 1].Select(i => Plain[i]),
        Gen.Select(Gen.Int[0, OfOneEye.Length - 1], Gen.Bool).Select((i, m) => m ? Mirror(OfOneEye[i]) : OfOneEye[i]),
        Gen.Select(Gen.Int[0, OfAnExam.Length - 1], Gen.Bool).Select((i, m) => m ? Mirror(OfAnExam[i]) : OfAnExam[i])
    );

    private static readonly string[] WholeExam =
    [
        "meet A",
        "lux 300",
        "open Q-1",
        "+1000",
        "mode measure",
        "pair R 3200",
        "pair L 3150",
        "lux 1",
        "+40000",
        "pair R 5100",
        "pair L 5050",
        "shape R round",
        "shape L round",
        "mode hold direct",
        "stim R 1000",
        "+3000",
        "stim R 1000",
        "+3000",
        "stim R 1000",
        "+3000",
        "stim L 1000",
        "+3000",
        "stim L 1000",
        "+3000",
        "stim L 1000",
        "direct R 3",
        "direct L 3",
        "mode hold short",
        "swings 1000 4 R",
        "swing short alike",
        "mode hold long",
        "swings 3000 4 L",
        "swing long alike",
        "mode hold near",
        "near R 3",
        "near L 3",
        "ready",
    ];

    // Partial exams: a whole one, from which some things are left out and into which one thing is thrown.
    private static readonly Gen<string[]> PartialExam = Gen.Select(
            Gen.Int[0, 9].Array[WholeExam.Length],
            Gen.Int[1, 9],
            AnyCommand,
            Gen.Int[0, WholeExam.Length]
        )
        .Select(
            (dice, odds, thrown, at) =>
            {
                var kept = WholeExam.Where((_, i) => dice[i] >= odds - 1 || i < 3).ToList();
                kept.Insert(Math.Min(at, kept.Count), thrown);
                return kept.ToArray();
            }
        );

    // Journals that begin as an exam does get further into it than wild ones; all three kinds are tried.
    private static readonly Gen<string[]> AnyScript = Gen.OneOf(
        AnyCommand.Array[1, 60],
        AnyCommand
            .Array[1, 60]
            .Select(rest => (string[])["meet A", "bright", "open Q-1", "+500", "mode measure", .. rest]),
        PartialExam
    );

    [Fact]
    public void No_order_of_events_and_entries_throws_or_loses_one() =>
        AnyScript.Sample(
            script =>
            {
                var folded = Run(script);
                var taken = folded.Changes.Select(c => c.Sequence.Value).ToHashSet();
                foreach (var entry in folded.Journal)
                    Assert.Contains(entry.Sequence.Value, taken);
                foreach (var reported in folded.Journal.Where(e => e.Entry is InstrumentReported))
                    Assert.True(IsAccountedFor(folded, reported), $"event at {reported.Sequence} is lost");
            },
            iter: 3_000
        );

    [Fact]
    public void Everything_that_is_computed_from_an_exam_can_be_computed_for_any_exam() =>
        AnyScript.Sample(
            script =>
            {
                var folded = Run(script);
                EarlierVisit[] visits = [.. folded.Exams.Values.Select(e => EarlierVisit.Of(e)).OfType<EarlierVisit>()];
                foreach (var lane in folded.Book.Lanes.Values)
                {
                    var open = folded.Book.OpenExamOf(lane.Serial);
                    Assert.InRange(LaneReminders.Of(lane, open, new(9_999_999)).Length, 0, 2);
                    foreach (var exam in folded.Exams.Values.Where(e => e.Id != open?.Id))
                        Assert.Null(DarkTimes.Of(lane, exam).Since.Right);
                }

                foreach (var exam in folded.Exams.Values)
                {
                    Assert.Equal(exam.Status == ExamStatus.Open && !exam.TakesEvents, exam.IsLeftOpen);
                    Assert.All(BeforeDrops.Of(exam, visits), reason => Assert.NotEqual(0, (int)reason.Kind));
                    Assert.NotEmpty(ChartText.Block(exam));
                    Assert.EndsWith(".", ChartText.OneLine(exam), StringComparison.Ordinal);
                    Assert.NotNull(Asked.Of(exam));
                }
            },
            iter: 1_000
        );

    [Fact]
    public void The_same_entries_read_back_from_their_bytes_fold_to_the_same_exams() =>
        AnyScript.Sample(
            script =>
            {
                var folded = Run(script);
                var again = folded.Journal.Select(e => new SequencedEntry(
                    e.Sequence,
                    EntryCodec.Decode(EntryCodec.Encode(e.Entry))
                ));
                Assert.Equal(folded.Exams.Values, Folded.Of([.. again]).Exams.Values);
            },
            iter: 1_000
        );

    [Fact]
    public void The_chart_never_claims_what_was_not_examined()
    {
        int[] claims = new int[6];
        AnyScript.Sample(
            script =>
            {
                foreach (var exam in Run(script).Exams.Values)
                    CheckClaims(exam, claims);
            },
            iter: 5_000
        );
        // A check that never meets a claim would prove nothing.
        Assert.All(claims, count => Assert.True(count > 20, $"claims met: {string.Join(", ", claims)}"));
    }

    [Fact]
    public void No_capture_spans_two_exams_and_none_is_in_two() =>
        AnyScript.Sample(
            script =>
            {
                var all = Run(script).Exams.Values.SelectMany(e => e.Captures.Select(c => (e, c))).ToArray();
                Assert.Equal(all.Length, all.Select(x => (x.c.CompletedBy, x.c.Eye)).Distinct().Count());
                foreach (var (exam, capture) in all)
                    Assert.Contains(exam.Entries, range => range.Contains(capture.Temporal.When.Sequence));
            },
            iter: 2_000
        );

    [Fact]
    public void The_record_of_any_exam_reads_back_as_it_was_written_and_counts_only_what_holds() =>
        AnyScript.Sample(
            script =>
            {
                foreach (var exam in Run(script).Exams.Values)
                {
                    var record = SignedRecords.Of(exam, "0");
                    var text = SignedRecordText.Write(record);
                    Assert.Equal(record, SignedRecordText.Read(text));
                    Assert.Equal(text, SignedRecordText.Write(SignedRecordText.Read(text)));
                    Assert.Equal(ChartText.OneLine(exam), record.Chart.Line);
                    Assert.All(record.Sizes.Where(s => s.Counts).GroupBy(s => (s.Eye, s.Light)), g => Assert.Single(g));
                    Assert.Equal(
                        exam.Judgements.Count(j => j.WithdrawnBy is not null),
                        record.Judgements.Count(j => j.WhyNot == "taken-back")
                    );
                }
            },
            iter: 1_000
        );

    [Fact]
    public void A_mirrored_exam_gives_the_mirrored_reasons_before_drops()
    {
        var found = 0;
        AnyScript.Sample(
            script =>
            {
                foreach (
                    var (exam, mirrored) in Run(script).Exams.Values.Zip(Run([.. script.Select(Mirror)]).Exams.Values)
                )
                {
                    var one = BeforeDrops.Of(exam, []).Select(r => r with { Eye = r.Eye?.Fellow() });
                    var other = BeforeDrops.Of(mirrored, []);
                    // Right stands before left, so that the order of two poor responses is not mirrored.
                    Assert.Equal(one.OrderBy(r => r.ToString()), other.OrderBy(r => r.ToString()));
                    if (other.Any(r => r.Eye is not null && r.Kind != BeforeDropsKind.Incomplete))
                        Interlocked.Increment(ref found);
                }
            },
            iter: 2_000
        );
        Assert.True(found > 30, $"exams with a reason of one eye: {found}");
    }

    [Fact]
    public void A_mirrored_exam_gives_the_mirrored_chart() =>
        AnyScript.Sample(
            script =>
            {
                var one = Run(script).Exams.Values.Select(MirroredRows);
                var other = Run([.. script.Select(Mirror)]).Exams.Values.Select(Rows);
                Assert.Equal(one, other);
            },
            iter: 2_000
        );

    private static void CheckClaims(Exam exam, int[] claims)
    {
        var letters = Perrla.Of(exam);
        bool Both(Func<Eye, bool> holds) => holds(Eye.Right) && holds(Eye.Left);
        bool Measured(RoomLight light) => Both(e => exam.Captures.Any(c => c.Eye == e && c.Light == light));
        bool Judged<T>(Func<T, Eye> eye)
            where T : Judgement =>
            Both(e => exam.Judgements.Any(j => j.WithdrawnBy is null && j.Judgement is T t && eye(t) == e));
        void Claim(int which, bool isClaimed, bool wasExamined)
        {
            if (!isClaimed)
                return;
            Interlocked.Increment(ref claims[which]);
            Assert.True(wasExamined, $"claim {which} of {ChartText.OneLine(exam)}");
        }

        Claim(0, letters.Equal == LetterClaim.Claimed, Measured(RoomLight.Bright) && Measured(RoomLight.Dim));
        Claim(1, letters.Round == LetterClaim.Claimed, Judged<ShapeJudgement>(j => j.Eye));
        Claim(2, letters.ReactiveToLight == LetterClaim.Claimed, Judged<DirectResponse>(j => j.Eye));
        Claim(3, letters.Accommodation == LetterClaim.Claimed, Judged<NearResponse>(j => j.Eye));
        Claim(4, letters.Letters.StartsWith("PERRL", StringComparison.Ordinal), Measured(RoomLight.Bright));
        var alike = exam.Judgements.Any(j =>
            j is { WithdrawnBy: null, Judgement: SwingOutcome { Finding: SwingFinding.Alike } }
        );
        var timely = BlockRuns.Of(exam).Any(r => r is { HasReachedCount: true, IsTimely: true, Alternations: >= 4 });
        Claim(5, ChartText.OneLine(exam).Contains("no RAPD seen", StringComparison.Ordinal), alike && timely);
    }

    /// <summary>The rows of the two eyes and the swinging line, right before left.</summary>
    private static (string, string, string) Rows(Exam exam)
    {
        var block = ChartText.Block(exam);
        return (
            block[1].Replace("OD (right):", "", StringComparison.Ordinal).Trim(),
            block[2].Replace("OS (left):", "", StringComparison.Ordinal).Trim(),
            block[3]
        );
    }

    private static (string, string, string) MirroredRows(Exam exam)
    {
        var (right, left, swinging) = Rows(exam);
        return (Swap(left), Swap(right), Swap(swinging));
    }

    private static string Swap(string text) =>
        text.Replace("OD (right)", "\u0001", StringComparison.Ordinal)
            .Replace("OS (left)", "OD (right)", StringComparison.Ordinal)
            .Replace("\u0001", "OS (left)", StringComparison.Ordinal);

    private static string Mirror(string command) =>
        string.Join(
            ' ',
            command
                .Split(' ')
                .Select(w =>
                    w == "R" ? "L"
                    : w == "L" ? "R"
                    : w
                )
        );

    // Edges and lamps going on are about a patient: they are in an exam, listed as orphans, or ignored with a reason. All
    // else may also be a condition of the instrument.
    private static bool IsAccountedFor(Folded folded, SequencedEntry entry)
    {
        if (folded.Exams.Values.Any(e => e.Entries.Any(range => range.Contains(entry.Sequence))))
            return true;
        var changes = folded.Changes.Where(c => c.Sequence == entry.Sequence).ToArray();
        if (changes.Any(c => c is EventOrphaned or EntryIgnored))
            return true;
        var line = ((InstrumentReported)entry.Entry).RawLine;
        var isAboutAPatient =
            line.Contains(",EDGE,", StringComparison.Ordinal)
            || (line.Contains(",LAMP,", StringComparison.Ordinal) && line.Contains(",ON,", StringComparison.Ordinal));
        return !isAboutAPatient && changes.Any(c => c is LaneChanged);
    }

    private static Folded Run(string[] script)
    {
        var commands = new ScriptCommands();
        foreach (var command in script)
        {
            // An entry about an exam needs one to name.
            var needsExam = OfAnExam.Contains(command) || OfAnExam.Contains(Mirror(command));
            if (needsExam && commands.LastExamOf(commands.LaneOf("Q7")) is null)
                continue;
            if (command == "again" && !commands.Journal.Any(e => e.Entry is InstrumentReported))
                continue;
            commands.Do(command);
        }

        return Folded.Of(commands.Journal);
    }
}
