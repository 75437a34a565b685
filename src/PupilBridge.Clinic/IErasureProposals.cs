using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>
/// Erasures that one person proposed and another one is to confirm. Nothing is erased by a proposal. Who may do any of it is asked before,
/// by <see cref="People.GuardedProposals"/>.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
public interface IErasureProposals
{
    /// <summary>The proposals that stand, the oldest first.</summary>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<IReadOnlyList<ProposalView>> ListAsync(CancellationToken cancellationToken);

    /// <summary>Proposes an erasure. Whatever would be in the way of the erasure itself is in the way of this.</summary>
    /// <param name="order">The order, as the one who proposes it would give it; its id becomes the proposal's name.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Done once it is on disk.</returns>
    Task<ProposalOutcome> ProposeAsync(ErasePatientEntry order, CancellationToken cancellationToken);

    /// <summary>Withdraws a proposal.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<ProposalOutcome> WithdrawAsync(string id, CancellationToken cancellationToken);

    /// <summary>Confirms a proposal, and erases.</summary>
    /// <param name="given">Who confirms what.</param>
    /// <param name="erase">Carries out the order; the same way as any other order goes.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<ProposalOutcome> ConfirmAsync(
        ProposalConfirmation given,
        Func<ErasePatientEntry, Task<EntryOutcome>> erase,
        CancellationToken cancellationToken
    );
}

/// <summary>Who confirms which proposal.</summary>
/// <param name="Id">The proposal's name.</param>
/// <param name="Number">The patient's number, as the person typed it.</param>
/// <param name="Who">Who confirms; never who proposed.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="ProgramVersion">The program's version, for the journal.</param>
public sealed record ProposalConfirmation(
    string Id,
    string Number,
    string Who,
    DateTimeOffset At,
    string ProgramVersion
);
