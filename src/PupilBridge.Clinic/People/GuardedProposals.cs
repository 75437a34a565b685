using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Erasing.Proposals;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.People;

/// <summary>
/// Proposals of erasures as one caller may use them, with a note of what they saw and did. Whoever may not erase may do none of it; nobody
/// proposes or confirms in another one's name; and a proposal is void as soon as whoever made it may not erase any more.
/// </summary>
/// <param name="proposals">The proposals.</param>
/// <param name="clinic">The desk behind the guard, which takes an order from nobody alone: the order of a confirmed proposal goes that way.</param>
/// <param name="caller">Who calls.</param>
/// <param name="audit">Where it is noted.</param>
/// <param name="reader">Who reads, for the notes.</param>
/// <param name="time">The clock.</param>
/// <param name="mayErase">Whether somebody of that name may erase now.</param>
public sealed class GuardedProposals(
    IErasureProposals proposals,
    IClinicDesk clinic,
    Caller caller,
    IAuditLog audit,
    AuditReader reader,
    TimeProvider time,
    Func<string, bool> mayErase
)
{
    /// <summary>The proposals that stand, the oldest first.</summary>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="NotAllowedException">The caller may not erase.</exception>
    public async Task<IReadOnlyList<ProposalView>> ListAsync(CancellationToken cancellation)
    {
        Need();
        var shown = (await proposals.ListAsync(cancellation).ConfigureAwait(false))
            .Where(one => mayErase(one.By))
            .ToList();
        await audit
            .NoteAsync(
                Note(AuditWhat.Proposals) with
                {
                    Lines = shown.Count,
                    Patients = [.. shown.Select(one => one.Patient).Distinct().Take(AuditNote.MostPatients)],
                }
            )
            .ConfigureAwait(false);
        return shown;
    }

    /// <summary>One proposal that stands.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="NotAllowedException">The caller may not erase.</exception>
    public async Task<ProposalView?> FindAsync(string id, CancellationToken cancellation)
    {
        Need();
        var found = await StandingAsync(id, cancellation).ConfigureAwait(false);
        if (found is not null)
        {
            await audit
                .NoteAsync(Note(AuditWhat.Proposals) with { Lines = 1, Patients = [found.Patient] })
                .ConfigureAwait(false);
        }

        return found;
    }

    /// <summary>Proposes an erasure in the caller's name.</summary>
    /// <param name="order">The order.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="NotAllowedException">The caller may not erase.</exception>
    public async Task<ProposalOutcome> ProposeAsync(ErasePatientEntry order, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(order);
        Need();
        var outcome = await proposals.ProposeAsync(order with { Who = caller.Who }, cancellation).ConfigureAwait(false);
        if (outcome.IsDone)
        {
            await NoteAsync(AuditWhat.Propose, order.Patient).ConfigureAwait(false);
        }

        return outcome;
    }

    /// <summary>Withdraws a proposal, one's own or another one's.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="NotAllowedException">The caller may not erase.</exception>
    public async Task<ProposalOutcome> WithdrawAsync(string id, CancellationToken cancellation)
    {
        Need();
        var found = await StandingAsync(id, cancellation).ConfigureAwait(false);
        var outcome = await proposals.WithdrawAsync(id, cancellation).ConfigureAwait(false);
        if (outcome.IsDone)
        {
            await NoteAsync(AuditWhat.Withdraw, found?.Patient).ConfigureAwait(false);
        }

        return outcome;
    }

    /// <summary>Confirms somebody else's proposal in the caller's name, and erases. That is noted by the desk, before it is done.</summary>
    /// <param name="id">The proposal's name.</param>
    /// <param name="number">The patient's number, as the caller typed it.</param>
    /// <param name="programVersion">The program's version, for the journal.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="NotAllowedException">The caller may not erase.</exception>
    public async Task<ProposalOutcome> ConfirmAsync(
        string id,
        string number,
        string programVersion,
        CancellationToken cancellation
    )
    {
        Need();
        if (await StandingAsync(id, cancellation).ConfigureAwait(false) is null)
        {
            return ErasureProposals.Gone();
        }

        return await proposals
            .ConfirmAsync(
                new ProposalConfirmation(id, number, caller.Who, time.GetUtcNow(), programVersion),
                order => clinic.EnterAsync(order, CancellationToken.None),
                cancellation
            )
            .ConfigureAwait(false);
    }

    private async Task<ProposalView?> StandingAsync(string id, CancellationToken cancellation) =>
        (await proposals.ListAsync(cancellation).ConfigureAwait(false)).FirstOrDefault(one =>
            one.Id == id && mayErase(one.By)
        );

    private Task NoteAsync(string what, string? patient) =>
        audit.NoteAsync(Note(what) with { Asked = patient, Subject = caller.Who });

    private AuditNote Note(string what) => reader.Note(what, time.GetUtcNow());

    private void Need()
    {
        if (!caller.May(Roles.Erasing))
        {
            _ = audit.NoteAsync(Note(AuditWhat.NotAllowed) with { Subject = Roles.Erasing });
            throw new NotAllowedException(
                ClinicText.People.Get("Guard.NotAllowed", caller.Who, GuardWords.OneOf(Roles.Erasing))
            );
        }
    }
}
