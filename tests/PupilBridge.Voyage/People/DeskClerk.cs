using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;
using PupilBridge.Voyage.Model;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.People;

/// <summary>
/// Brings to the product's desk what is entered at one instrument, one entry after the other. An entry whose answer did not come
/// is sent again as it is, with the same id, as soon as a service answers; now and then one is sent twice for nothing.
/// </summary>
/// <param name="lane">The instrument.</param>
/// <param name="chance">Decides what people do.</param>
/// <param name="time">The time of day.</param>
/// <param name="told">Keeps what they are told.</param>
/// <param name="who">Their initials.</param>
/// <param name="orders">Keeps what they order to be erased.</param>
/// <param name="erasing">Decides who is erased.</param>
/// <param name="erasures">How often somebody is after an exam, 0 to 1.</param>
internal sealed partial class DeskClerk(
    Lane lane,
    Chance chance,
    TimeProvider time,
    ToldPeople told,
    string who,
    ErasureOrders orders,
    Chance erasing,
    double erasures
)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(7);
    private readonly EntryMaker maker = new(chance, time, who);
    private readonly Queue<Errand> errands = [];
    private Task<EntryOutcome>? asked;
    private bool isUnderWay;
    private TimeSpan againAt;
    private long? seen;

    /// <summary>Whether everything was answered.</summary>
    public bool IsIdle => errands.Count == 0;

    /// <summary>How often an entry was sent again with the same id.</summary>
    public int SentAgain { get; private set; }

    /// <summary>The service is gone: what was asked of it was perhaps recorded, perhaps not.</summary>
    public void LoseService()
    {
        if (isUnderWay && errands.Peek().Entry is ErasePatientEntry)
            orders.Lose();
        isUnderWay = false;
        (asked, againAt) = (null, TimeSpan.Zero);
    }

    /// <summary>When something is brought again that was not taken; null while there is none.</summary>
    public TimeSpan? NextDue => errands.Count > 0 && asked is null && againAt > TimeSpan.Zero ? againAt : null;

    /// <summary>Brings what can be brought now.</summary>
    /// <exception cref="ProcessDiedException">The service died meanwhile.</exception>
    public void Step(SteppedService service)
    {
        while (service.Now >= againAt && errands.TryPeek(out var errand))
        {
            if (asked is null)
            {
                if (!TryMake(errand, service))
                    return;
                if (errand.Entry is null)
                {
                    errands.Dequeue();
                    continue;
                }

                if (errand.Entry is ErasePatientEntry order)
                    orders.Give(order, service.Applied);
                SentAgain += errand.Tries++ > 0 ? 1 : 0;
                isUnderWay = true;
                asked = new EntryDesk(service).EnterAsync(errand.Entry, CancellationToken.None);
            }

            // It waits for the disk: the world goes on meanwhile.
            if (!asked.IsCompleted && !IsAnswerDue(errand, service))
                return;
            var outcome = Outcome();
            if (outcome is EntryOutcome.Refused { NextStep: var next } && IsForNow(next))
            {
                againAt = service.Now + Patience;
                isUnderWay = false;
                return;
            }

            if (outcome is null)
                return;
            Answered(errand, outcome);
        }
    }

    /// <summary>The service stops in order: it answers what it was asked.</summary>
    public void StopService()
    {
        if (asked is null)
            return;
        // Refused by a stop is not refused for good: it is given again.
        var errand = errands.Peek();
        if (Outcome() is not EntryOutcome.Refused and { } outcome)
            Answered(errand, outcome);
        asked = null;
    }

    /// <summary>Writes down what is to be entered, once it can be.</summary>
    private bool TryMake(Errand errand, SteppedService service)
    {
        if (errand.Entry is not null)
            return true;
        try
        {
            // Whoever sees on the page that exams must wait does.
            if (service.ExamsWaitFor is null)
            {
                errand.Entry = errand.Make(service);
                return true;
            }
        }
        catch (ExamLogBrokenException)
        {
            // What was to be looked at is not there now.
        }

        againAt = service.Now + Patience;
        return false;
    }

    /// <summary>Whether what is asked is on disk, and done: then the answer comes at once.</summary>
    private static bool IsAnswerDue(Errand errand, SteppedService service) =>
        service.IsRecorded(IdOf(errand.Entry!))
        && service.IsCaughtUp
        && (errand.Entry is not ErasePatientEntry || service.IsRenewed);

    /// <summary>Whether an entry is refused only for now, and is to be brought again.</summary>
    private static bool IsForNow(string next) =>
        next == ClinicText.Desk["Next.InAMoment"] || next == ClinicText.Desk["Next.OncePutRight"];

    /// <returns>Null if the service stopped before it could say.</returns>
    private EntryOutcome? Outcome()
    {
        try
        {
            return asked!.GetAwaiter().GetResult();
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        finally
        {
            asked = null;
        }
    }

    private void Answered(Errand errand, EntryOutcome outcome)
    {
        isUnderWay = false;
        told.Answer(errand.Entry!, outcome);
        if (errand.Entry is ErasePatientEntry order)
            orders.Answer(order, outcome);
        if (outcome is EntryOutcome.Recorded { Exam: { } exam } && errand.Entry is OpenExamEntry or SplitEntry)
            seen = ((EntryOutcome.Recorded)outcome).Exam;
        if (outcome is EntryOutcome.Recorded && !errand.IsRepeat && chance.Happens(0.05))
            errand.IsRepeat = true;
        else
            errands.Dequeue();
    }

    private void Add(Func<SteppedService, DeskEntry?> make) => errands.Enqueue(new Errand(make));

    /// <summary>The exam that the person sees at this instrument: the open one, else the last one seen.</summary>
    private long? Exam(SteppedService service)
    {
        if (service.Book.OpenExamOf(lane.Serial) is { } open)
            seen = open.Id.Value;
        return seen;
    }

    private static EntryId IdOf(DeskEntry entry) =>
        EntryId.TryParse(entry.EntryId, out var id)
            ? id
            : throw new InvalidOperationException("An id of ours is none.");

    private sealed class Errand(Func<SteppedService, DeskEntry?> make)
    {
        public Func<SteppedService, DeskEntry?> Make { get; } = make;

        public DeskEntry? Entry { get; set; }

        public int Tries { get; set; }

        public bool IsRepeat { get; set; }
    }
}
