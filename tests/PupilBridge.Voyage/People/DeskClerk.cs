using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
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
internal sealed partial class DeskClerk(Lane lane, Chance chance, TimeProvider time, ToldPeople told, string who)
{
    private readonly EntryMaker maker = new(chance, time, who);
    private readonly Queue<Errand> errands = [];
    private Task<EntryOutcome>? asked;
    private long? seen;

    /// <summary>Whether everything was answered.</summary>
    public bool IsIdle => errands.Count == 0;

    /// <summary>How often an entry was sent again with the same id.</summary>
    public int SentAgain { get; private set; }

    /// <summary>The service is gone: what was asked of it was perhaps recorded, perhaps not.</summary>
    public void LoseService() => asked = null;

    /// <summary>Brings what can be brought now.</summary>
    /// <exception cref="ProcessDiedException">The service died meanwhile.</exception>
    public void Step(SteppedService service)
    {
        while (errands.TryPeek(out var errand))
        {
            if (asked is null)
            {
                errand.Entry ??= errand.Make(service);
                if (errand.Entry is null)
                {
                    errands.Dequeue();
                    continue;
                }

                SentAgain += errand.Tries++ > 0 ? 1 : 0;
                asked = new EntryDesk(service).EnterAsync(errand.Entry, CancellationToken.None);
            }

            // It waits for the disk: the world goes on meanwhile.
            if (!asked.IsCompleted && !service.IsRecorded(IdOf(errand.Entry!)))
                return;
            Answered(errand, Outcome());
        }
    }

    /// <summary>The service stops in order: it answers what it was asked.</summary>
    public void StopService()
    {
        if (asked is null)
            return;
        // Refused by a stop is not refused for good: it is given again.
        if (Outcome() is not EntryOutcome.Refused and var outcome)
            Answered(errands.Peek(), outcome);
        asked = null;
    }

    private EntryOutcome Outcome()
    {
        try
        {
            return asked!.GetAwaiter().GetResult();
        }
        finally
        {
            asked = null;
        }
    }

    private void Answered(Errand errand, EntryOutcome outcome)
    {
        told.Answer(errand.Entry!, outcome);
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
