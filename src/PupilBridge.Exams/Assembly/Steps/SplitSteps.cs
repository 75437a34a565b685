using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// An exam that holds two sittings becomes two: what stands in the journal from one place on goes to a new exam without a
/// patient. A pair of edges that lies on both sides of that place becomes none.
/// </summary>
internal static class SplitSteps
{
    public static void Split(Workspace work, Exam exam, ExamSplit split)
    {
        if (exam.Status == ExamStatus.SetAside || !Lies(exam, split.From))
        {
            work.Put(
                exam.WithIncident(
                    IncidentKind.EntryNotApplied,
                    work.Now(split.At),
                    $"splitting at entry {split.From}: that is not within the exam"
                )
            );
            return;
        }

        EndHalfMade(work, exam);
        exam = work.Find(exam.Id)!;
        var border = FirstMoment(exam, split.From) ?? work.Now(split.At);
        var born = Born(work, exam, split, border);
        var kept = Kept(work, exam, split, border, born.Id);
        work.Put(kept);
        work.PutNew(born);
        Relane(work, exam, born, border);
    }

    private static bool Lies(Exam exam, JournalSequence from) =>
        from.Value > exam.Id.Value
        && exam.Entries.Count > 0
        && from > exam.Entries[0].First
        && from < exam.Entries[^1].Last;

    private static void EndHalfMade(Workspace work, Exam exam)
    {
        if (work.Lane(exam.Serial).OpenExam != exam.Id)
            return;
        RestSteps.Refuse(work, exam.Serial, PairRefusalReason.Split, work.Sequence);
        MarkSteps.Refuse(work, exam.Serial, PairRefusalReason.Split, work.Sequence);
        LampSteps.LoseEnds(work, exam.Serial, exam.Id);
    }

    private static Exam Kept(Workspace work, Exam exam, ExamSplit split, Moment border, ExamId born)
    {
        var record = CourseSteps.Record(work, split, CourseKind.Split, null, split.Reason, born);
        var kept = Part(exam, s => s < split.From, split.From, work.Sequence) with
        {
            Closing = new(border, ClosingReason.Split),
            Course = exam.Course.Add(record),
            LastActivity = border,
        };
        // The reason for the split is a text of both.
        kept = kept with
        {
            SealedTexts = [.. kept.SealedTexts, .. exam.SealedTexts.Where(t => t.Sequence == work.Sequence)],
        };
        return kept.WithEntry(work.Sequence);
    }

    private static Exam Born(Workspace work, Exam exam, ExamSplit split, Moment border)
    {
        var record = CourseSteps.Record(work, split, CourseKind.SplitOff, null, split.Reason, exam.Id);
        var part = Part(exam, s => s >= split.From, split.From, work.Sequence);
        return part with
        {
            Id = ExamId.OpenedBy(work.Sequence),
            Patient = null,
            Status = ExamStatus.Open,
            Opening = new(border, split.Who, null),
            Light = [.. exam.Light.Where(l => l.When.Sequence < split.From).TakeLast(1), .. part.Light],
            Fixations = [.. exam.Fixations.Where(f => f.When.Sequence < split.From).TakeLast(1), .. part.Fixations],
            Dial = [.. exam.Dial.Where(d => d.When.Sequence < split.From).TakeLast(1), .. part.Dial],
            Course = [record],
            // They are counted over the whole sitting and cannot be parted; counted twice they would weigh double.
            HomeRests = new() { Right = default, Left = default },
            SignedVersions = [],
            Amendment = null,
        };
    }

    /// <summary>The facts on one side of the border.</summary>
    private static Exam Part(Exam exam, Func<JournalSequence, bool> isHere, JournalSequence from, JournalSequence by)
    {
        bool IsCut(Capture c) =>
            c.Nasal.When.Sequence < from != c.Temporal.When.Sequence < from && c.Manner == CaptureManner.Marked;
        bool LostStimulus(JudgementRecord j) => j.Stimulus is { } s && s < from != j.Sequence < from;
        var refused = exam
            .Captures.Where(c => IsCut(c) && isHere(c.When.Sequence))
            .Items.Select(c => new RefusedPair(c.Eye, PairRefusalReason.Split, c.Nasal, c.Temporal, by));
        var misplaced = exam
            .Judgements.Where(j => LostStimulus(j) && isHere(j.Sequence))
            .Items.Select(j => new RefusedJudgement(
                j.Entry,
                j.Sequence,
                j.Who,
                j.At,
                j.Judgement,
                JudgementRefusal.OtherStimulus
            ));
        return exam with
        {
            Entries = Cut(exam.Entries, isHere, from),
            Dial = exam.Dial.Where(d => isHere(d.When.Sequence)),
            Light = exam.Light.Where(l => isHere(l.When.Sequence)),
            Fixations = exam.Fixations.Where(f => isHere(f.When.Sequence)),
            Lens = exam.Lens.Where(l => isHere(l.When.Sequence)),
            Captures = exam.Captures.Where(c => isHere(c.When.Sequence) && !IsCut(c)),
            RefusedPairs = [.. exam.RefusedPairs.Where(p => isHere(p.RefusedBy)), .. refused],
            Stimuli = exam.Stimuli.Where(s => isHere(s.On.Sequence)),
            Judgements = exam.Judgements.Where(j => isHere(j.Sequence) && !LostStimulus(j)),
            RefusedJudgements = [.. exam.RefusedJudgements.Where(j => isHere(j.Sequence)), .. misplaced],
            EyeStatuses = exam.EyeStatuses.Where(s => isHere(s.Sequence)),
            FilterSteps = exam.FilterSteps.Where(s => isHere(s.Sequence)),
            BellGrades = exam.BellGrades.Where(g => isHere(g.Sequence)),
            Notes = exam.Notes.Where(n => isHere(n.Sequence)),
            SealedTexts = exam.SealedTexts.Where(t => isHere(t.Sequence)),
            NotExamined = exam.NotExamined.Where(n => isHere(n.Sequence)),
            Incidents = exam.Incidents.Where(i => isHere(i.When.Sequence)),
        };
    }

    private static ValueList<SequenceRange> Cut(
        ValueList<SequenceRange> ranges,
        Func<JournalSequence, bool> isHere,
        JournalSequence from
    )
    {
        var before = new JournalSequence(from.Value - 1);
        var pieces = ranges.Items.SelectMany(r =>
            r.Contains(from) && r.First < from ? new SequenceRange[] { new(r.First, before), new(from, r.Last) } : [r]
        );
        return [.. pieces.Where(r => isHere(r.First))];
    }

    private static Moment? FirstMoment(Exam exam, JournalSequence from) =>
        exam
            .Dial.Select(d => d.When)
            .Concat(exam.Captures.Select(c => c.When))
            .Concat(exam.Stimuli.Select(s => s.On))
            .Concat(exam.Light.Select(l => l.When))
            .Concat(exam.Fixations.Select(f => f.When))
            .Concat(exam.Judgements.Select(j => new Moment(j.Sequence, j.At, 0, null, null)))
            .Where(m => m.Sequence >= from)
            .MinBy(m => m.Sequence);

    private static void Relane(Workspace work, Exam old, Exam born, Moment border)
    {
        var lane = work.Lane(old.Serial);
        if (lane.OpenExam == old.Id)
        {
            var window = new ExamWindow(old.Id, old.Opening.When, true, border, false);
            lane = lane with { OpenExam = born.Id, OpenExamHasEvents = true, Recent = lane.Recent.Add(window) };
        }
        else
        {
            var at = lane.Recent.Items.FirstOrDefault(w => w.Exam == old.Id);
            if (at is not null)
            {
                var windows = lane.Recent.SelectMany(w =>
                    w.Exam == old.Id
                        ? new[]
                        {
                            w with
                            {
                                To = border,
                                EndedByEvent = false,
                            },
                            w with
                            {
                                Exam = born.Id,
                                From = border,
                            },
                        }
                        : [w]
                );
                lane = lane with { Recent = [.. windows] };
            }
        }

        work.Put(lane);
    }
}
