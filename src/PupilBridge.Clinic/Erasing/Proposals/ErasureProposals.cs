using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Erasing.Proposals;

/// <summary>The proposals of a house, kept over a restart.</summary>
/// <param name="house">The house.</param>
/// <param name="dataFolder">Its data folder.</param>
/// <param name="time">The clock.</param>
public sealed class ErasureProposals(IClinicHouse house, string dataFolder, TimeProvider time)
    : IErasureProposals,
        IDisposable
{
    /// <summary>How long a proposal stands; docs/operation.md says so, too.</summary>
    public static readonly TimeSpan StandsFor = TimeSpan.FromDays(7);

    private readonly ProposalFile file = new(dataFolder);

    /// <summary>One at a time: what is being confirmed is not withdrawn meanwhile.</summary>
    private readonly SemaphoreSlim gate = new(1, 1);

    /// <inheritdoc/>
    public Task<IReadOnlyList<ProposalView>> ListAsync(CancellationToken cancellationToken) =>
        AloneAsync(
            () => Task.FromResult<IReadOnlyList<ProposalView>>([.. Standing().Select(one => one.View)]),
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<ProposalOutcome> ProposeAsync(ErasePatientEntry order, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(order);
        return TryAsync(() => ProposeAloneAsync(order, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ProposalOutcome> WithdrawAsync(string id, CancellationToken cancellationToken) =>
        TryAsync(
            () =>
            {
                if (Standing().All(one => one.View.Id != id))
                {
                    return Task.FromResult(Gone());
                }

                Keep(one => one.Id != id);
                return Task.FromResult(new ProposalOutcome(true, ClinicText.Desk["Propose.Withdrawn"]));
            },
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<ProposalOutcome> ConfirmAsync(
        ProposalConfirmation given,
        Func<ErasePatientEntry, Task<EntryOutcome>> erase,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(erase);
        return TryAsync(() => ConfirmAloneAsync(given, erase), cancellationToken);
    }

    /// <inheritdoc/>
    public void Dispose() => gate.Dispose();

    private async Task<ProposalOutcome> ProposeAloneAsync(ErasePatientEntry order, CancellationToken cancellation)
    {
        if (house.ExamsWaitFor is { } wait)
        {
            return No(wait, ClinicText.Desk["Next.InAMoment"]);
        }

        var number = Given.Patient(order.Patient);
        // As it was typed first: with the name put to it, a reason that is none would pass for one.
        EntryTranslation.Read(order);
        var standing = Standing();
        if (standing.Any(one => one.View.Id == order.EntryId))
        {
            return new ProposalOutcome(true, ClinicText.Desk.Get("Propose.Done", StandsFor.Days));
        }

        if (standing.FirstOrDefault(one => one.View.Patient == number.Value).View is { } known)
        {
            return No(ClinicText.Desk.Get("Propose.Known", number, known.By), ClinicText.Desk["Propose.KnownNext"]);
        }

        // An exam that ended a moment ago may not be listed yet.
        await house.WrittenAsync(cancellation).ConfigureAwait(false);
        var whole = order with { Reason = Whole(order.Reason, order.Who) };
        var erased = (PatientErased)EntryTranslation.Read(whole);
        if (house.IsKnown(erased.Id))
        {
            return No(ClinicText.Desk["Propose.SentBefore"], ClinicText.Desk["Propose.SentBeforeNext"]);
        }

        if (ErasureObstacles.Of(house, whole, ref erased) is { } obstacle)
        {
            return No(obstacle.Reason, obstacle.NextStep);
        }

        var proposal = new StoredProposal
        {
            Id = order.EntryId,
            By = order.Who,
            At = time.GetUtcNow(),
            OrderedBy = order.OrderedBy.Trim(),
            Reason = order.Reason.Trim(),
        }.Sealed(number, house.SubjectKeys!);
        Keep(_ => true, proposal);
        return new ProposalOutcome(true, ClinicText.Desk.Get("Propose.Done", StandsFor.Days));
    }

    private async Task<ProposalOutcome> ConfirmAloneAsync(
        ProposalConfirmation given,
        Func<ErasePatientEntry, Task<EntryOutcome>> erase
    )
    {
        if (Standing().FirstOrDefault(one => one.View.Id == given.Id).View is not { } proposal)
        {
            return Gone();
        }

        if (proposal.By.Equals(given.Who, StringComparison.OrdinalIgnoreCase))
        {
            return No(ClinicText.Desk["Propose.SamePerson"], ClinicText.Desk["Propose.SamePersonNext"]);
        }

        if (given.Number.Trim() != proposal.Patient)
        {
            return No(ClinicText.Desk["Propose.OtherNumber"], ClinicText.Desk["Propose.OtherNumberNext"]);
        }

        var outcome = await erase(
                new ErasePatientEntry
                {
                    // The proposal's own: whatever happens, it is carried out once.
                    EntryId = proposal.Id,
                    Who = given.Who,
                    At = given.At,
                    ProgramVersion = given.ProgramVersion,
                    Patient = proposal.Patient,
                    OrderedBy = proposal.OrderedBy,
                    Reason = Whole(proposal.Reason, proposal.By),
                }
            )
            .ConfigureAwait(false);
        if (outcome is EntryOutcome.Refused refused)
        {
            return No(refused.Reason, refused.NextStep);
        }

        Forget(proposal.Id);
        return new ProposalOutcome(
            true,
            (outcome as EntryOutcome.Recorded)?.Notice ?? ClinicText.Desk["Propose.AlreadyErased"]
        );
    }

    /// <summary>The erasure is recorded by now; that its proposal is still in the file hides nothing, since its number is gone.</summary>
    private void Forget(string id)
    {
        try
        {
            Keep(one => one.Id != id);
        }
        catch (EntryProblemException)
        {
            // It goes with the next change.
        }
    }

    /// <summary>Those that have not lapsed and whose patient is still there, with their numbers.</summary>
    private List<(StoredProposal Stored, ProposalView View)> Standing()
    {
        if (house.SubjectKeys is not { } keys)
        {
            return [];
        }

        var now = time.GetUtcNow();
        return
        [
            .. file.Read()
                .Where(one => one.At + StandsFor > now)
                .Select(one => (one, Number: one.Opened(keys)))
                .Where(pair => pair.Number is not null)
                .Select(pair =>
                    (
                        pair.one,
                        new ProposalView(
                            pair.one.Id,
                            pair.Number!,
                            pair.one.OrderedBy,
                            pair.one.Reason,
                            pair.one.By,
                            pair.one.At,
                            pair.one.At + StandsFor
                        )
                    )
                )
                .OrderBy(pair => pair.one.At),
        ];
    }

    /// <summary>Writes those that stand and are wanted; whatever lapsed goes.</summary>
    private void Keep(Func<StoredProposal, bool> isWanted, StoredProposal? added = null)
    {
        var kept = Standing().Select(one => one.Stored).Where(isWanted);
        file.Write([.. added is null ? kept : kept.Append(added)]);
    }

    /// <summary>The reason as the journal has it, so that it says there who the first of the two was. Part of the journal, and not translated.</summary>
    private static string Whole(string reason, string by) => $"{reason.Trim()} (proposed by {by})";

    private Task<ProposalOutcome> TryAsync(Func<Task<ProposalOutcome>> work, CancellationToken cancellation) =>
        AloneAsync(
            async () =>
            {
                try
                {
                    return await work().ConfigureAwait(false);
                }
                catch (EntryProblemException problem)
                {
                    return No(problem.Message, ClinicText.Desk["Next.PutRight"]);
                }
                catch (Exception broken) when (broken is ExamLogBrokenException or IOException)
                {
                    return No(broken.Message, ClinicText.Desk["Next.InAMoment"]);
                }
            },
            cancellation
        );

    private async Task<T> AloneAsync<T>(Func<Task<T>> work, CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await Task.Run(work, cancellation).ConfigureAwait(false);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>What is answered about a proposal that does not stand.</summary>
    internal static ProposalOutcome Gone() =>
        No(ClinicText.Desk.Get("Propose.Gone", StandsFor.Days), ClinicText.Desk["Propose.GoneNext"]);

    private static ProposalOutcome No(string reason, string next) => new(false, $"{reason} {next}");
}
