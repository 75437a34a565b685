using CsCheck;
using PupilBridge.Constructed;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria;

/// <summary>
/// Nothing is "not met" that was not examined, and mirrored eyes give mirrored findings, over random partial exams. What must have been
/// examined is read here from the facts of the exam, not from the views that the criteria use.
/// </summary>
public class NothingUnexaminedTests
{
    private static readonly Dictionary<string, Func<CriteriaInput, Finding, bool>> WasExamined = new()
    {
        ["anisocoria-descriptive"] = (i, f) => BothSized(i.Exam, f.Light!.Value),
        ["anisocoria-clinical"] = (i, f) => BothSized(i.Exam, f.Light!.Value),
        ["anisocoria-larger-in-dim"] = (i, _) => AllSized(i.Exam),
        ["anisocoria-larger-in-bright"] = (i, _) => AllSized(i.Exam),
        ["anisocoria-alike"] = (i, _) => AllSized(i.Exam),
        ["dilation-lag"] = (i, _) => i.Exam.Captures.Where(c => c.DarkMilliseconds < 18_000).Count >= 4,
        ["slow-to-dilate"] = (_, _) => false,
        ["swinging-short"] = (i, _) => Swung(i.Exam, Block.SwingShort),
        ["swinging-long"] = (i, _) => Swung(i.Exam, Block.SwingLong),
        ["rapd"] = (i, _) => Swung(i.Exam, Block.SwingShort) && Swung(i.Exam, Block.SwingLong),
        ["rapd-one-pupil"] = (i, _) => Swung(i.Exam, Block.SwingShort) || Swung(i.Exam, Block.SwingLong),
        ["rapd-log-units"] = (_, _) => false,
        ["rapd-bell-grade"] = (_, _) => false,
        ["direct-poor"] = (i, f) => Judged<DirectResponse>(i.Exam, j => j.Eye == f.Eye && j.Grade.WasSeen),
        ["near-due"] = (i, _) => Both(e => Judged<DirectResponse>(i.Exam, j => j.Eye == e && j.Grade.WasSeen)),
        ["afferent-pattern"] = Consensual,
        ["efferent-pattern"] = Consensual,
        ["light-near-dissociation"] = (i, f) =>
            Judged<DirectResponse>(i.Exam, j => j.Eye == f.Eye) && Judged<NearResponse>(i.Exam, j => j.Eye == f.Eye),
        ["shape-not-round"] = (i, f) =>
            Judged<ShapeJudgement>(i.Exam, j => j.Eye == f.Eye && j.Shape == PupilShape.Round),
        ["dim-not-larger"] = (i, f) =>
            Sized(i.Exam, f.Eye!.Value, RoomLight.Bright) && Sized(i.Exam, f.Eye!.Value, RoomLight.Dim),
        ["size-beyond-age-and-light"] = (i, f) =>
            Sized(i.Exam, f.Eye!.Value, f.Light!.Value)
            && i.AgeYears is not null
            && i.Site.Field(f.Light!.Value) is not null,
        ["size-beyond-decade"] = (i, f) => Sized(i.Exam, f.Eye!.Value, RoomLight.Dim) && i.AgeYears is not null,
        ["size-changed"] = (i, f) =>
            Sized(i.Exam, f.Eye!.Value, f.Light!.Value) && i.Earlier.Any(e => Sized(e, f.Eye!.Value, f.Light!.Value)),
        ["anisocoria-changed"] = (i, f) =>
            BothSized(i.Exam, f.Light!.Value) && i.Earlier.Any(e => BothSized(e, f.Light!.Value)),
        ["timing-off"] = (i, f) => i.Exam.Stimuli.Any(s => s.Block == f.Block && s.End == StimulusEnd.Complete),
        ["lamp-balance-unchecked"] = (i, _) => i.Site.LampBalanceAgeDays is not null,
        ["eye-status-unreliable"] = (i, f) => i.Exam.EyeStatuses.Any(s => s.Eye == f.Eye && s.WithdrawnBy is null),
        ["fixation-wrong"] = (i, _) =>
            Swung(i.Exam, Block.SwingShort)
            && Swung(i.Exam, Block.SwingLong)
            && EachSeenEye(i.Exam, e => Sized(i.Exam, e, RoomLight.Bright) && Sized(i.Exam, e, RoomLight.Dim))
            && EachSeenEye(i.Exam, e => Judged<DirectResponse>(i.Exam, j => j.Eye == e)),
        ["exam-incomplete"] = (i, _) =>
            EachSeenEye(i.Exam, e => Sized(i.Exam, e, RoomLight.Bright) && Sized(i.Exam, e, RoomLight.Dim))
            && EachSeenEye(i.Exam, e => Judged<ShapeJudgement>(i.Exam, j => j.Eye == e))
            && EachSeenEye(i.Exam, e => Judged<DirectResponse>(i.Exam, j => j.Eye == e))
            && (
                IsProsthesis(i.Exam, Eye.Right)
                || IsProsthesis(i.Exam, Eye.Left)
                || (Swung(i.Exam, Block.SwingShort) && Swung(i.Exam, Block.SwingLong))
            ),
    };

    private static readonly (string Word, string[] Values)[] Choices =
    [
        ("bright", ["3.20/3.15", "4.00/3.00", "3.20/-", "-/3.10", "-/-", "5.50/3.20"]),
        ("dim", ["5.10/5.05", "6.00/5.00", "5.10/-", "-/5.00", "3.00/3.00", "6.40/5.00"]),
        ("dim-fix", ["far", "near"]),
        ("lag", ["-", "4.60/3.60 5.20/5.10", "4.60/3.60 5.20/-", "4.60/4.50 5.20/5.10"]),
        ("dark", ["40+0", "3+8", "125+0", "3+0"]),
        ("fix", ["far", "near", "-"]),
        ("status", ["none/none", "-/-", "drops/none", "none/prosthesis", "opaquecornea/-"]),
        ("shape", ["round/round", "-/round", "notround/round", "-/-", "couldnotsee/round"]),
        ("slow", ["-", "R", "L"]),
        ("direct", ["3/3", "0/3", "1/1", "-/3", "?/2", "-/-", "3/0"]),
        ("consensual", ["-/-", "3/0", "0/3", "3/-", "1/1", "3/3"]),
        ("short", ["alike", "R", "L", "-", "?", "alike only=R", "R only=L"]),
        ("long", ["alike", "R", "L", "-", "?", "alike only=L", "L only=R"]),
        ("long-dwell", ["3000", "3400"]),
        ("near", ["-/-", "3/3", "0/-", "1.5/3"]),
        ("near-light", ["1", "300"]),
        ("end", ["ready", "-", "silence"]),
        ("u", ["100", "30"]),
        ("age", ["45", "-", "8", "90"]),
        ("balance", ["30", "-", "500"]),
        ("site-bright", ["-", "100 2827.4334 2"]),
        ("site-dim", ["-", "0.5 2827.4334 2"]),
        ("earlier", ["-", "bright 3.20/3.15", "bright 3.20/-,dim -/5.00", "bright 4.00/3.00", "patient Q-2"]),
        ("bell", ["-", "R II", "L IV"]),
        ("bracket", ["-", "R alike reversed", "L stillworse"]),
    ];

    // Most words stay as they are, so that exams get far enough to say something.
    internal static readonly Gen<string> PartialExam = Gen.Select(
            Gen.Int[0, 2].Array[Choices.Length],
            Gen.Int[0, 100].Array[Choices.Length]
        )
        .Select(
            (dice, pick) =>
                string.Join(
                    ';',
                    Choices
                        .Select((c, n) => (c.Word, Value: c.Values[pick[n] % c.Values.Length], Turn: dice[n]))
                        .Where(c => c.Turn == 0)
                        .Select(c => $"{c.Word} {c.Value}")
                )
        );

    [Fact]
    public void No_finding_is_not_met_where_something_was_not_examined()
    {
        Dictionary<string, int> notMet = [];
        PartialExam.Sample(
            done =>
            {
                var input = ConstructedExam.Of(done);
                var findings = Findings.Of(input);
                Assert.Equal(CriteriaCatalogue.All.Length, findings.Select(f => f.Criterion).Distinct().Count());
                foreach (var finding in findings.Where(f => f.Verdict == CriterionVerdict.NotMet))
                {
                    lock (notMet)
                        notMet[finding.Criterion] = notMet.GetValueOrDefault(finding.Criterion) + 1;
                    Assert.True(
                        WasExamined[finding.Criterion](input, finding),
                        $"{finding.Criterion} {finding.Eye} {finding.Light} {finding.Block} is not met in: {done}"
                    );
                }
            },
            iter: 1_500
        );
        // A check that never meets a verdict would prove nothing: all but those that are never "not met" must have come.
        string[] never = ["slow-to-dilate", "rapd-log-units", "rapd-bell-grade"];
        // The reading from one pupil needs three words to fit together, which chance seldom gives; constructed exam 28 has it.
        var seen = CriteriaCatalogue
            .All.Select(c => c.Id)
            .Where(id => id != "rapd-one-pupil" && !notMet.ContainsKey(id));
        Assert.Equal(never, seen);
    }

    [Fact]
    public void Mirrored_eyes_give_mirrored_findings()
    {
        HashSet<string> sides = [];
        PartialExam.Sample(
            done =>
            {
                var one = Findings.Of(ConstructedExam.Of(done) with { Bell = null, Bracket = null });
                var other = Findings.Of(ConstructedExam.Of(done, Mirror) with { Bell = null, Bracket = null });
                var mirrored = one.Select(f => Swap($"{f with { Eye = f.Eye?.Fellow() }}"));
                Assert.Equal(mirrored.Order(), other.Select(f => f.ToString()).Order());
                lock (sides)
                    sides.UnionWith(
                        one.Where(f => f is { Verdict: CriterionVerdict.Met, Eye: not null }).Select(f => f.Criterion)
                    );
            },
            iter: 800
        );
        Assert.True(sides.Count >= 15, $"met with an eye: {string.Join(", ", sides)}");
    }

    [Fact]
    public void An_exam_set_aside_gives_none() => Assert.Empty(Findings.Of(ConstructedExam.Of("end aside")));

    private static string Mirror(string script) =>
        string.Join('\n', script.Split('\n').Select(line => string.Join(' ', line.Split(' ').Select(MirrorWord))));

    private static string MirrorWord(string word) =>
        word.Replace(";", "", StringComparison.Ordinal) switch
        {
            "R" => word.Replace('R', 'L'),
            "L" => word.Replace('L', 'R'),
            "only=R" => word.Replace('R', 'L'),
            "only=L" => word.Replace('L', 'R'),
            _ => word,
        };

    private static string Swap(string text) =>
        text.Replace("OD (right)", "\u0001", StringComparison.Ordinal)
            .Replace("OS (left)", "OD (right)", StringComparison.Ordinal)
            .Replace("\u0001", "OS (left)", StringComparison.Ordinal);

    private static bool Sized(Exam exam, Eye eye, RoomLight light) =>
        exam.Captures.Any(c => c.Eye == eye && c.Light == light);

    private static bool BothSized(Exam exam, RoomLight light) => Both(eye => Sized(exam, eye, light));

    private static bool AllSized(Exam exam) => BothSized(exam, RoomLight.Bright) && BothSized(exam, RoomLight.Dim);

    private static bool Consensual(CriteriaInput input, Finding finding) =>
        Judged<DirectResponse>(input.Exam, j => j.Eye == finding.Eye)
        && Both(lit => Judged<ConsensualResponse>(input.Exam, j => j.Lit == lit));

    private static bool IsProsthesis(Exam exam, Eye eye) =>
        exam.EyeStatuses.Any(s => s.Eye == eye && s.Conditions == EyeConditions.Prosthesis);

    private static bool EachSeenEye(Exam exam, Func<Eye, bool> holds) =>
        Both(eye => IsProsthesis(exam, eye) || holds(eye));

    private static bool Swung(Exam exam, Block dwell) => Judged<SwingOutcome>(exam, j => j.Dwell == dwell);

    private static bool Both(Func<Eye, bool> holds) => holds(Eye.Right) && holds(Eye.Left);

    private static bool Judged<T>(Exam exam, Func<T, bool> condition)
        where T : Judgement => exam.Judgements.Any(j => j.WithdrawnBy is null && j.Judgement is T t && condition(t));
}
