using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.SignIn.Support;

/// <summary>Proposals in memory, with the rules that pages depend on; the real ones are tried in a real house elsewhere.</summary>
internal sealed class ListedProposals : IErasureProposals
{
    private readonly List<ProposalView> standing = [];

    /// <summary>The orders that were carried out.</summary>
    public List<ErasePatientEntry> Erased { get; } = [];

    /// <summary>What is said when a proposal is refused; null where it is taken.</summary>
    public string? Refusal { get; set; }

    public Task<IReadOnlyList<ProposalView>> ListAsync(CancellationToken cancellationToken) =>
        Task.FromResult<IReadOnlyList<ProposalView>>([.. standing]);

    public Task<ProposalOutcome> ProposeAsync(ErasePatientEntry order, CancellationToken cancellationToken)
    {
        if (Refusal is not null)
        {
            return Task.FromResult(new ProposalOutcome(false, Refusal));
        }

        standing.Add(
            new(order.EntryId, order.Patient, order.OrderedBy, order.Reason, order.Who, order.At, order.At.AddDays(7))
        );
        return Task.FromResult(new ProposalOutcome(true, "It is proposed."));
    }

    public Task<ProposalOutcome> WithdrawAsync(string id, CancellationToken cancellationToken) =>
        Task.FromResult(new ProposalOutcome(standing.RemoveAll(one => one.Id == id) == 1, "It is withdrawn."));

    public async Task<ProposalOutcome> ConfirmAsync(
        ProposalConfirmation given,
        Func<ErasePatientEntry, Task<EntryOutcome>> erase,
        CancellationToken cancellationToken
    )
    {
        var proposal = standing.Single(one => one.Id == given.Id);
        if (proposal.By == given.Who || proposal.Patient != given.Number)
        {
            return new(false, "Not by you, or not this number.");
        }

        var order = new ErasePatientEntry
        {
            EntryId = proposal.Id,
            Who = given.Who,
            At = given.At,
            ProgramVersion = given.ProgramVersion,
            Patient = proposal.Patient,
            OrderedBy = proposal.OrderedBy,
            Reason = proposal.Reason,
        };
        Assert.IsType<EntryOutcome.Recorded>(await erase(order));
        Erased.Add(order);
        standing.Remove(proposal);
        return new(true, "It is erased. Make a backup now.");
    }
}
