using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Erasing.Proposals;

/// <summary>For tests and hosts without a data folder: nothing is proposed, and nothing can be.</summary>
public sealed class NoErasureProposals : IErasureProposals
{
    /// <summary>The one instance that is needed.</summary>
    public static NoErasureProposals Instance { get; } = new();

    /// <inheritdoc/>
    public Task<IReadOnlyList<ProposalView>> ListAsync(CancellationToken cancellationToken) =>
        Task.FromResult<IReadOnlyList<ProposalView>>([]);

    /// <inheritdoc/>
    public Task<ProposalOutcome> ProposeAsync(ErasePatientEntry order, CancellationToken cancellationToken) =>
        throw new NotSupportedException("Nothing keeps proposals here.");

    /// <inheritdoc/>
    public Task<ProposalOutcome> WithdrawAsync(string id, CancellationToken cancellationToken) =>
        throw new NotSupportedException("Nothing keeps proposals here.");

    /// <inheritdoc/>
    public Task<ProposalOutcome> ConfirmAsync(
        ProposalConfirmation given,
        Func<ErasePatientEntry, Task<EntryOutcome>> erase,
        CancellationToken cancellationToken
    ) => throw new NotSupportedException("Nothing keeps proposals here.");
}
