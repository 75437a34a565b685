using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.People;

/// <summary>
/// The desks as one caller may use them. What the caller's roles do not allow is refused with words: entries by their outcome, all
/// else by a <see cref="NotAllowedException"/>. Everything entered stands under the caller's own name.
/// </summary>
/// <remarks>
/// A lane keeps what was typed until it is recorded, and sends it again after an interruption; meanwhile another examiner may have
/// taken over. So an entry may also stand under the name of somebody who was signed in at that lane before, with that person's
/// roles; a signature may not.
/// </remarks>
public sealed partial class GuardedDesk : IClinicDesk, ILaneDesk, IRecordDesk, IBenchDesk
{
    private readonly IClinicDesk clinic;
    private readonly ILaneDesk lanes;
    private readonly IRecordDesk records;
    private readonly IBenchDesk bench;
    private readonly Caller caller;
    private readonly IReadOnlyList<Caller> before;

    /// <summary>Guards the desks for one caller.</summary>
    /// <param name="clinic">Entries and lists.</param>
    /// <param name="lanes">Lanes.</param>
    /// <param name="records">Records.</param>
    /// <param name="bench">The service bench.</param>
    /// <param name="caller">Who calls.</param>
    /// <param name="before">Who was signed in lately where the caller is signed in now.</param>
    public GuardedDesk(
        IClinicDesk clinic,
        ILaneDesk lanes,
        IRecordDesk records,
        IBenchDesk bench,
        Caller caller,
        IReadOnlyList<Caller>? before = null
    )
    {
        ArgumentNullException.ThrowIfNull(clinic);
        ArgumentNullException.ThrowIfNull(lanes);
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(caller);
        (this.clinic, this.lanes, this.records, this.bench, this.caller, this.before) = (
            clinic,
            lanes,
            records,
            bench,
            caller,
            before ?? []
        );
    }

    /// <inheritdoc cref="IClinicDesk.EnterAsync"/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (AuthorOf(entry) is not { } author)
        {
            return Refused(
                Words.Get("Guard.OtherPerson", entry.Who, caller.Who),
                Words.Get("Guard.OtherPersonNext", entry.Who, caller.Who)
            );
        }

        var policy = EntryDuties.Of(entry);
        // One person alone erases nobody over the network: not by a page, and not by a request made up by hand.
        if (entry is ErasePatientEntry && author.May(policy))
        {
            return Refused(Words["Guard.TwoPersons"], Words["Guard.TwoPersonsNext"]);
        }

        return author.May(policy) ? clinic.EnterAsync(entry with { Who = author.Who }, cancellationToken)
            : author.Scopes is not null
                ? Refused(Words.Get("Guard.ScopeMissing", author.Who, policy), Words["Guard.ScopeMissingNext"])
            : Refused(
                Words.Get("Guard.RoleMissing", author.Who, GuardWords.OneOf(policy)),
                Words["Guard.RoleMissingNext"]
            );
    }

    private static HouseText Words => ClinicText.People;

    /// <summary>Whose entry it is: the caller's, or that of somebody who was signed in here before.</summary>
    private Caller? AuthorOf(DeskEntry entry) =>
        IsName(caller, entry.Who) ? caller
        : EntryDuties.IsSignature(entry) || entry is IssueEntry ? null
        : before.FirstOrDefault(one => IsName(one, entry.Who));

    private static bool IsName(Caller person, string name) =>
        person.Who.Equals(name, StringComparison.OrdinalIgnoreCase);

    private static Task<EntryOutcome> Refused(string reason, string next) =>
        Task.FromResult<EntryOutcome>(new EntryOutcome.Refused(reason, next));

    private void Need(string policy)
    {
        if (!caller.May(policy))
        {
            NoteRefusal(policy);
            throw new NotAllowedException(
                caller.Scopes is null
                    ? Words.Get("Guard.NotAllowed", caller.Who, GuardWords.OneOf(policy))
                    : Words.Get("Guard.KeyNotAllowed", caller.Who, policy)
            );
        }
    }

    private T With<T>(string policy, Func<T> ask)
    {
        Need(policy);
        return ask();
    }
}
