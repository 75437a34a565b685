using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Findings;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Voyage.People;

/// <content>What there is to enter.</content>
internal sealed partial class DeskClerk
{
    private string? patient;
    private string? lastJudgement;

    /// <summary>The next patient sits down: their number, and their exam.</summary>
    public void Welcome()
    {
        var number = orders.InUse($"Q-{1001 + chance.NextInteger(0, 60)}");
        (patient, lastJudgement) = (number, null);
        known.Add(number);
        if (chance.Happens(0.7))
            Add(_ => maker.Patient(number));
        // Sometimes the exam opens by itself, and is attached afterwards.
        if (chance.Happens(0.85))
            Add(_ => maker.Open(lane.Serial.Value, number));
        else
            Say(e => e.Attach(number));
    }

    public void Say(Func<EntryMaker.AboutExam, DeskEntry> entry) =>
        Add(service => Exam(service) is { } exam ? entry(maker.About(exam)) : null);

    public void Judge(string judgement) =>
        Add(service =>
        {
            if (Exam(service) is not { } exam)
                return null;
            var entry = maker.About(exam).Judgement(judgement);
            lastJudgement = entry.EntryId;
            return entry;
        });

    public void Note() => Say(e => e.Note($"note {chance.NextInteger(0, 1_000_000)}: patient blinks"));

    public void Withdraw() =>
        Add(service =>
            lastJudgement is { } judgement && Exam(service) is { } exam ? maker.About(exam).Withdraw(judgement) : null
        );

    public void Ready()
    {
        if (patient is { } number && chance.Happens(0.3))
            Say(e => e.Attach(number));
        Say(e => e.Ready());
    }

    /// <summary>Asks the instrument to switch itself off, over the service.</summary>
    public void SwitchOff() =>
        Add(service =>
        {
            lane.Side?.WishOff(lane.Serial, service.Present);
            return null;
        });

    /// <summary>A clinician looks after the exam: signs it, or moves, splits, sets aside, amends.</summary>
    public void LookAfter()
    {
        var what = chance.NextUnit();
        if (what < 0.06)
        {
            var other = orders.InUse($"Q-{1001 + chance.NextInteger(0, 60)}");
            Say(e => e.Move(other));
        }
        else if (what < 0.10)
            Split();
        else if (what < 0.15)
            Say(e => e.SetAside());
        if (what is >= 0.15 and < 0.75)
            Sign();
        if (what is >= 0.60 and < 0.75)
        {
            Say(e => e.Amend());
            Note();
            Sign();
        }
    }

    private void Sign() =>
        Add(service =>
        {
            if (Exam(service) is not { } number || service.Tracker.Find(new ExamId(number)) is not { } exam)
                return null;
            var draft = RecordDraft.Of(service, exam, () => ExamCriteria.Of(service, exam));
            if (draft.Text is null)
                return null;
            var entry = maker.About(number).Sign(draft.Digest!);
            told.Saw(entry, draft.Text);
            return entry;
        });

    private void Split() =>
        Add(service =>
        {
            if (
                Exam(service) is not { } number
                || service.Tracker.Find(new ExamId(number)) is not { Entries.Count: > 1 } exam
            )
                return null;
            return maker.About(number).Split(exam.Entries[exam.Entries.Count / 2].First.Value);
        });
}
