using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.People;

/// <summary>The people of a data folder: the access file, with a note in the journal of whatever happens.</summary>
public sealed partial class PeopleDesk : IPeopleDesk, IDisposable
{
    private readonly PeopleParts parts;
    private readonly AccessFile file;
    private readonly PasswordCheck passwords;
    private readonly UnknownNames unknown = new();
    private readonly FirstCode code;

    /// <summary>One at a time: a flood of sign-ins must not take every core from the readings.</summary>
    private readonly SemaphoreSlim gate = new(1, 1);

    /// <summary>Opens the desk. A damaged access file is no obstacle: whoever signs in is told of it.</summary>
    /// <param name="parts">What it is made of.</param>
    public PeopleDesk(PeopleParts parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        this.parts = parts;
        file = new AccessFile(parts.DataFolder, parts.Time, parts.Remark);
        passwords = parts.Passwords ?? new PasswordCheck(parts.HashRounds);
        code = People.FirstCode.Draw(parts.Random);
        if (Trouble is { } trouble)
        {
            parts.Remark(trouble);
        }
    }

    /// <summary>Why the access file cannot be used, for a person; null if it can.</summary>
    public string? Trouble
    {
        get
        {
            try
            {
                file.Read();
                return null;
            }
            catch (AccessFileException broken)
            {
                return broken.Message;
            }
        }
    }

    /// <inheritdoc/>
    public bool WantsFirstAdministrator => Trouble is null && file.LastGood.People.Count == 0;

    /// <inheritdoc/>
    public string? FirstCode => WantsFirstAdministrator ? code.Text : null;

    /// <inheritdoc/>
    public IReadOnlyList<PersonView> List()
    {
        var now = parts.Time.GetUtcNow();
        return [.. ReadOrLast().People.Select(p => p.View(now)).OrderBy(p => p.Who, StringComparer.OrdinalIgnoreCase)];
    }

    /// <inheritdoc/>
    public PersonView? Find(string who)
    {
        ArgumentNullException.ThrowIfNull(who);
        return ReadOrLast().Find(who)?.View(parts.Time.GetUtcNow());
    }

    /// <summary>
    /// Journals changes that the journal does not have yet: those that a command made beside the service, or that a crash
    /// interrupted. The service calls it at its start and every few seconds.
    /// </summary>
    /// <param name="cancellationToken">Gives up; what is left is journalled next time.</param>
    public async Task CatchUpAsync(CancellationToken cancellationToken)
    {
        if (parts.Journal is not { } journal || Trouble is not null)
        {
            return;
        }

        var waiting = file.LastGood.NotJournalled;
        if (waiting.Count == 0)
        {
            return;
        }

        foreach (var note in waiting)
        {
            await journal.RecordAsync(note, cancellationToken).ConfigureAwait(false);
        }

        var done = waiting.Select(note => note.Id).ToHashSet();
        await file.ChangeAsync(
                list =>
                    (list with { NotJournalled = [.. list.NotJournalled.Where(note => !done.Contains(note.Id))] }, 0),
                cancellationToken
            )
            .ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public void Dispose() => gate.Dispose();

    /// <summary>A file that was damaged while the service runs signs nobody off in the middle of an exam.</summary>
    private AccessList ReadOrLast()
    {
        try
        {
            return file.Read();
        }
        catch (AccessFileException)
        {
            return file.LastGood;
        }
    }

    private async Task<T> AloneAsync<T>(Func<Task<T>> work, Func<string, T> cannot, CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await work().ConfigureAwait(false);
        }
        catch (AccessFileException broken)
        {
            return cannot(broken.Message);
        }
        finally
        {
            gate.Release();
        }
    }

    private string Draw()
    {
        var bytes = new byte[16];
        parts.Random.GetBytes(bytes);
        return Convert.ToHexStringLower(bytes);
    }

    /// <summary>What happened is done even where it cannot be journalled just now; whoever runs the service is told.</summary>
    private async Task NoteAsync(Func<CancellationToken, Task> journal, CancellationToken cancellation)
    {
        try
        {
            await journal(cancellation).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            parts.Remark(ClinicText.People.Get("Journal.Failed", fault.Message));
        }
    }
}
