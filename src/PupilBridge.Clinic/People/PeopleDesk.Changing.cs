namespace PupilBridge.Clinic.People;

/// <summary>Adding and changing people.</summary>
public sealed partial class PeopleDesk
{
    /// <summary>Stands in the journal for whoever made the first administrator with the code.</summary>
    private const string ByCode = "(first start)";

    /// <inheritdoc/>
    public Task<PersonOutcome> MakeFirstAdministratorAsync(
        string code,
        string who,
        string password,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(password);
        return AloneAsync(
            async () =>
            {
                if (file.Read().People.Count > 0)
                {
                    return No(PeopleWords.CodeIsVoid);
                }

                return !this.code.Is(code)
                    ? No(PeopleWords.WrongCode, PersonField.Code)
                    : await MakeAsync(
                            ByCode,
                            who.Trim(),
                            ClinicRole.Administrator,
                            password,
                            list => list.People.Count > 0 ? No(PeopleWords.CodeIsVoid) : null,
                            PeopleWords.FirstAdded(who.Trim()),
                            cancellationToken
                        )
                        .ConfigureAwait(false);
            },
            No,
            cancellationToken
        );
    }

    /// <inheritdoc/>
    public Task<PersonOutcome> AddAsync(
        Caller by,
        string who,
        ClinicRole roles,
        string password,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(password);
        return !by.May(Roles.People)
            ? Task.FromResult(No(PeopleWords.OnlyAdministrators))
            : AloneAsync(
                () =>
                    MakeAsync(
                        by.Who,
                        who.Trim(),
                        roles,
                        password,
                        _ => null,
                        PeopleWords.Added(who.Trim()),
                        cancellationToken
                    ),
                No,
                cancellationToken
            );
    }

    /// <inheritdoc/>
    public Task<PersonOutcome> ChangeAsync(
        Caller by,
        string who,
        PersonChange change,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(change);
        return !by.May(Roles.People)
            ? Task.FromResult(No(PeopleWords.OnlyAdministrators))
            : AloneAsync(() => AlterAsync(by.Who, who.Trim(), change, null, cancellationToken), No, cancellationToken);
    }

    /// <inheritdoc/>
    public Task<PersonOutcome> ChangeOwnPasswordAsync(
        Caller by,
        string old,
        string fresh,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(fresh);
        return AloneAsync(
            async () =>
            {
                var person = file.Read().Find(by.Who);
                if (person?.Attempts.LockedUntil is { } until && until > parts.Time.GetUtcNow())
                {
                    return No(PeopleWords.Locked(until, parts.Time.LocalTimeZone));
                }

                var (isRight, _) = await VerifyAsync(person, old, cancellationToken).ConfigureAwait(false);
                if (person is null || !isRight)
                {
                    // Whoever sits down at a screen that was left must not be able to guess either.
                    await CountWrongAsync(by.Who, cancellationToken).ConfigureAwait(false);
                    return No(PeopleWords.OldPasswordWrong, PersonField.OldPassword);
                }

                return old == fresh
                    ? No(PeopleWords.SamePassword, PersonField.Password)
                    : await AlterAsync(
                            by.Who,
                            by.Who,
                            new PersonChange(Password: fresh),
                            PeopleWords.OwnPasswordChanged,
                            cancellationToken
                        )
                        .ConfigureAwait(false);
            },
            No,
            cancellationToken
        );
    }

    private async Task<PersonOutcome> MakeAsync(
        string by,
        string who,
        ClinicRole roles,
        string password,
        Func<AccessList, PersonOutcome?> obstacle,
        string done,
        CancellationToken cancellation
    )
    {
        if (PersonSteps.CannotAdd(file.Read(), who, roles, password) is { } early)
        {
            return early;
        }

        var hash = await Task.Run(() => passwords.Hash(password), cancellation).ConfigureAwait(false);
        var person = new StoredPerson
        {
            Who = who,
            Roles = roles,
            IsEnabled = true,
            PasswordHash = hash,
            Stamp = Draw(),
        };
        return await WriteAsync(
                list => obstacle(list) ?? PersonSteps.CannotAdd(list, who, roles, password),
                _ => person,
                Note(by, "added"),
                done,
                cancellation
            )
            .ConfigureAwait(false);
    }

    private async Task<PersonOutcome> AlterAsync(
        string by,
        string who,
        PersonChange change,
        string? done,
        CancellationToken cancellation
    )
    {
        if (PersonSteps.CannotChange(file.Read(), who, change) is { } early)
        {
            return early;
        }

        var hash = change.Password is { } password
            ? await Task.Run(() => passwords.Hash(password), cancellation).ConfigureAwait(false)
            : "";
        var stamp = Draw();
        return await WriteAsync(
                list => PersonSteps.CannotChange(list, who, change),
                list => PersonSteps.Changed(list.Find(who)!, change, hash, stamp),
                Note(by, PersonSteps.What(change)),
                done ?? PeopleWords.Changed(who),
                cancellation
            )
            .ConfigureAwait(false);
    }

    /// <summary>Writes a change and its note for the journal in one go, then journals it.</summary>
    private async Task<PersonOutcome> WriteAsync(
        Func<AccessList, PersonOutcome?> obstacle,
        Func<AccessList, StoredPerson> make,
        Func<StoredPerson, PersonChangeNote> note,
        string done,
        CancellationToken cancellation
    )
    {
        var outcome = await file.ChangeAsync(
                list =>
                {
                    if (obstacle(list) is { } refused)
                    {
                        return (list, refused);
                    }

                    var person = make(list);
                    return (list.With(person).With(note(person)), new PersonOutcome(true, done));
                },
                cancellation
            )
            .ConfigureAwait(false);
        await NoteAsync(CatchUpAsync, cancellation).ConfigureAwait(false);
        return outcome;
    }

    private Func<StoredPerson, PersonChangeNote> Note(string by, string what)
    {
        var (id, at) = (Draw(), parts.Time.GetUtcNow());
        return person => new PersonChangeNote
        {
            Id = id,
            By = by,
            At = at,
            Person = person.Who,
            Roles = person.Roles,
            IsEnabled = person.IsEnabled,
            What = what,
        };
    }

    private static PersonOutcome No(string words) => new(false, words);

    private static PersonOutcome No(string words, PersonField wrong) => new(false, words, wrong);
}
