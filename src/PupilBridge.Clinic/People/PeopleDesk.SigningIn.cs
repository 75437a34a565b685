using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.People;

/// <summary>Signing in and off.</summary>
public sealed partial class PeopleDesk
{
    /// <summary>Stands in the journal where somebody tried a name that nobody has; what was typed could be a password.</summary>
    private const string UnknownName = "(unknown name)";

    /// <inheritdoc/>
    public Task<SignInOutcome> SignInAsync(
        string who,
        string password,
        string where,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(password);
        return AloneAsync(
            async () =>
            {
                var outcome = await CheckAsync(who.Trim(), password, where, cancellationToken).ConfigureAwait(false);
                if (outcome.Person is { } person)
                {
                    await TellAsync(person.Who, SignInEvent.SignedIn, where, cancellationToken).ConfigureAwait(false);
                }

                return outcome;
            },
            words => new SignInOutcome(null, words),
            cancellationToken
        );
    }

    /// <inheritdoc/>
    public Task<PersonOutcome> ConfirmAsync(
        Caller by,
        string password,
        string where,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(password);
        return AloneAsync(
            async () =>
            {
                var outcome = await CheckAsync(by.Who, password, where, cancellationToken).ConfigureAwait(false);
                return outcome.Person is not null ? new PersonOutcome(true, "")
                    : outcome.Words == PeopleWords.WrongSignIn
                        ? No(PeopleWords.OwnPasswordWrong, PersonField.OldPassword)
                    : No(outcome.Words, PersonField.OldPassword);
            },
            No,
            cancellationToken
        );
    }

    /// <inheritdoc/>
    public Task SignedOffAsync(string who, string where, SignOffReason why, CancellationToken cancellationToken) =>
        TellAsync(
            who,
            why switch
            {
                SignOffReason.Idle => SignInEvent.SignedOffIdle,
                SignOffReason.LongestLife => SignInEvent.SignedOffLongest,
                _ => SignInEvent.SignedOff,
            },
            where,
            cancellationToken
        );

    /// <summary>Checks a password, counts a wrong one and notes the refusal; that somebody came in is the caller's to note.</summary>
    private async Task<SignInOutcome> CheckAsync(
        string who,
        string password,
        string where,
        CancellationToken cancellation
    )
    {
        var person = file.Read().Find(who);
        var name = person?.Who ?? UnknownName;
        var before = person?.Attempts ?? unknown.Of(who);
        if (before.LockedUntil is { } until && until > parts.Time.GetUtcNow())
        {
            await TellAsync(name, SignInEvent.LockedOut, where, cancellation).ConfigureAwait(false);
            return new SignInOutcome(null, PeopleWords.Locked(until, parts.Time.LocalTimeZone));
        }

        var (isRight, wantsHash) = await VerifyAsync(person, password, cancellation).ConfigureAwait(false);
        if (person is null || !isRight)
        {
            var after = await CountWrongAsync(who, cancellation).ConfigureAwait(false);
            var isLocked = after.Wrong == 0;
            await TellAsync(name, isLocked ? SignInEvent.LockedOut : SignInEvent.Refused, where, cancellation)
                .ConfigureAwait(false);
            return new SignInOutcome(
                null,
                isLocked
                    ? PeopleWords.Locked(after.LockedUntil!.Value, parts.Time.LocalTimeZone)
                    : PeopleWords.WrongSignIn
            );
        }

        if (!person.IsEnabled)
        {
            await TellAsync(name, SignInEvent.Refused, where, cancellation).ConfigureAwait(false);
            return new SignInOutcome(null, PeopleWords.Disabled);
        }

        await ForgetWrongAsync(person, wantsHash ? password : null, cancellation).ConfigureAwait(false);
        return new SignInOutcome(person.View(parts.Time.GetUtcNow()), "");
    }

    private Task<(bool IsRight, bool WantsNewHash)> VerifyAsync(
        StoredPerson? person,
        string password,
        CancellationToken cancellation
    ) =>
        Task.Run(
            () => passwords.Check(person?.PasswordHash, password.Length > PasswordRules.MaxLength ? "" : password),
            cancellation
        );

    /// <summary>Counts a wrong password. The file is written for a name that nobody has too: the time taken shall not tell.</summary>
    private Task<Attempts> CountWrongAsync(string who, CancellationToken cancellation)
    {
        var now = parts.Time.GetUtcNow();
        return file.ChangeAsync(
            list =>
            {
                if (list.Find(who) is { } person)
                {
                    var counted = parts.Lockout.AfterWrong(person.Attempts, now);
                    return (list.With(person with { Attempts = counted }), counted);
                }

                var after = parts.Lockout.AfterWrong(unknown.Of(who), now);
                unknown.Set(who, after);
                return (list with { Version = list.Version }, after);
            },
            cancellation
        );
    }

    private async Task ForgetWrongAsync(StoredPerson person, string? toHash, CancellationToken cancellation)
    {
        if (person.Attempts == Attempts.None && toHash is null)
        {
            return;
        }

        var hash = toHash is null
            ? null
            : await Task.Run(() => passwords.Hash(toHash), cancellation).ConfigureAwait(false);
        await file.ChangeAsync(
                list =>
                    list.Find(person.Who) is { } now && now.Stamp == person.Stamp
                        ? (list.With(now with { Attempts = Attempts.None, PasswordHash = hash ?? now.PasswordHash }), 0)
                        : (list, 0),
                cancellation
            )
            .ConfigureAwait(false);
    }

    private Task TellAsync(string who, SignInEvent what, string where, CancellationToken cancellation) =>
        parts.Journal is not { } journal
            ? Task.CompletedTask
            : NoteAsync(
                stop =>
                    journal.RecordAsync(
                        new SignInNote
                        {
                            Id = Draw(),
                            By = who,
                            At = parts.Time.GetUtcNow(),
                            Person = who,
                            Event = what,
                            Where = ShortText.IsValid(where) ? where : "console",
                        },
                        stop
                    ),
                cancellation
            );
}
