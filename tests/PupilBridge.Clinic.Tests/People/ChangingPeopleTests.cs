using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class ChangingPeopleTests : IDisposable
{
    private readonly PeopleBench bench = new();

    [Fact]
    public async Task The_code_on_the_terminal_makes_the_first_administrator_once()
    {
        var code = bench.Desk.FirstCode;
        Assert.NotNull(code);
        Assert.False((await FirstAsync("ABCD-EFGH-JKMN")).Done);
        Assert.True(bench.Desk.WantsFirstAdministrator);
        var made = await FirstAsync($" {code.Replace("-", " ", StringComparison.Ordinal).ToLowerInvariant()} ");
        Assert.True(made.Done, made.Words);
        Assert.Equal(ClinicRole.Administrator, bench.Desk.Find("AD")?.Roles);
        Assert.NotNull((await bench.SignInAsync("AD")).Person);
        Assert.Null(bench.Desk.FirstCode);
        Assert.False((await FirstAsync(code, "JL")).Done);
        Assert.Null(bench.Desk.Find("JL"));
    }

    [Fact]
    public async Task A_person_added_on_the_machine_makes_the_code_void()
    {
        var code = bench.Desk.FirstCode!;
        using var command = bench.Open(null);
        await command.AddAsync(
            PeopleBench.Administrator,
            "MK",
            ClinicRole.Examiner,
            PeopleBench.Good,
            CancellationToken.None
        );
        Assert.Null(bench.Desk.FirstCode);
        Assert.False((await FirstAsync(code)).Done);
    }

    [Fact]
    public async Task A_damaged_file_is_not_taken_for_a_first_start()
    {
        await File.WriteAllTextAsync(bench.File, "");
        Assert.False(bench.Desk.WantsFirstAdministrator);
        Assert.Null(bench.Desk.FirstCode);
    }

    [Theory]
    [InlineData("", ClinicRole.Examiner, PeopleBench.Good)]
    [InlineData("(unknown name)", ClinicRole.Examiner, PeopleBench.Good)]
    [InlineData("mk", ClinicRole.Examiner, PeopleBench.Good)]
    [InlineData("JL", ClinicRole.None, PeopleBench.Good)]
    [InlineData("JL", (ClinicRole)16, PeopleBench.Good)]
    [InlineData("JL", ClinicRole.Examiner, "short")]
    public async Task What_cannot_be_added_is_refused_with_words(string who, ClinicRole roles, string password)
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var outcome = await bench.Desk.AddAsync(
            PeopleBench.Administrator,
            who,
            roles,
            password,
            CancellationToken.None
        );
        Assert.False(outcome.Done);
        Assert.NotEmpty(outcome.Words);
        Assert.Equal("MK", Assert.Single(bench.Desk.List()).Who);
    }

    [Theory]
    [InlineData(ClinicRole.Examiner | ClinicRole.Clinician | ClinicRole.Technician)]
    [InlineData(ClinicRole.None)]
    public async Task Only_an_administrator_looks_after_people(ClinicRole roles)
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var caller = new Caller("MK", roles);
        var added = await bench.Desk.AddAsync(
            caller,
            "JL",
            ClinicRole.Examiner,
            PeopleBench.Good,
            CancellationToken.None
        );
        var changed = await bench.Desk.ChangeAsync(
            caller,
            "MK",
            new PersonChange(Roles: ClinicRole.Administrator),
            CancellationToken.None
        );
        Assert.False(added.Done);
        Assert.False(changed.Done);
        Assert.Equal(ClinicRole.Examiner, Assert.Single(bench.Desk.List()).Roles);
    }

    [Fact]
    public async Task Password_roles_and_enabling_change_the_stamp_and_wrong_passwords_do_not()
    {
        await bench.AddAsync("AD", ClinicRole.Administrator);
        var stamps = new List<string> { (await bench.AddAsync("MK", ClinicRole.Examiner)).Stamp };
        await bench.SignInAsync("MK", "not the password");
        await bench.SignInAsync("MK");
        Assert.Equal(stamps[0], bench.Desk.Find("MK")!.Stamp);
        PersonChange[] changes =
        [
            new(Password: "four grey pilots"),
            new(Roles: ClinicRole.Clinician),
            new(IsEnabled: false),
            new(IsEnabled: true),
        ];
        foreach (var change in changes)
        {
            Assert.True((await bench.ChangeAsync("MK", change)).Done);
            stamps.Add(bench.Desk.Find("MK")!.Stamp);
        }

        Assert.Equal(stamps.Count, stamps.Distinct().Count());
    }

    [Fact]
    public async Task The_last_administrator_who_can_sign_in_stays_one()
    {
        await bench.AddAsync("AD", ClinicRole.Administrator);
        await bench.AddAsync("MK", ClinicRole.Examiner);
        Assert.False((await bench.ChangeAsync("AD", new PersonChange(IsEnabled: false))).Done);
        Assert.False((await bench.ChangeAsync("AD", new PersonChange(Roles: ClinicRole.Clinician))).Done);
        Assert.True((await bench.ChangeAsync("MK", new PersonChange(Roles: ClinicRole.Administrator))).Done);
        Assert.True((await bench.ChangeAsync("AD", new PersonChange(IsEnabled: false))).Done);
        Assert.False((await bench.ChangeAsync("MK", new PersonChange(IsEnabled: false))).Done);
        Assert.True(bench.Desk.Find("MK")!.IsEnabled);
    }

    [Fact]
    public async Task Ones_own_password_is_changed_with_the_one_so_far_and_guessing_it_locks()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        Assert.False((await OwnAsync("not the password", "four grey pilots")).Done);
        Assert.False((await OwnAsync(PeopleBench.Good, PeopleBench.Good)).Done);
        Assert.False((await OwnAsync(PeopleBench.Good, "short")).Done);
        Assert.True((await OwnAsync(PeopleBench.Good, "four grey pilots")).Done);
        Assert.NotNull((await bench.SignInAsync("MK", "four grey pilots")).Person);
        for (var n = 0; n < 5; n++)
        {
            await OwnAsync("not the password", "five blue tugs");
        }

        Assert.NotNull(bench.Desk.Find("MK")!.LockedUntil);
        Assert.False((await OwnAsync("four grey pilots", "five blue tugs")).Done);
    }

    [Fact]
    public async Task Whoever_is_signed_in_is_known_again_by_their_password_and_guessing_it_locks_as_at_the_sign_in()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var caller = new Caller("MK", ClinicRole.Examiner);
        for (var n = 0; n < 4; n++)
        {
            Assert.Equal(PersonField.OldPassword, (await AgainAsync(caller, "not the password")).Wrong);
        }

        Assert.True((await AgainAsync(caller, PeopleBench.Good)).Done);
        // The right one ends the count of wrong ones.
        for (var n = 0; n < 5; n++)
        {
            Assert.Null(bench.Desk.Find("MK")!.LockedUntil);
            Assert.False((await AgainAsync(caller, "not the password")).Done);
        }

        Assert.NotNull(bench.Desk.Find("MK")!.LockedUntil);
        Assert.False((await AgainAsync(caller, PeopleBench.Good)).Done);
        Assert.Null((await bench.SignInAsync("MK")).Person);
        Assert.False((await AgainAsync(new Caller("ZZ", ClinicRole.Examiner), PeopleBench.Good)).Done);
    }

    [Fact]
    public async Task The_journal_has_who_did_what_to_whom_and_never_a_password()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await bench.ChangeAsync("MK", new PersonChange(ClinicRole.Clinician, true, "four grey pilots"));
        Assert.Equal(["MK added", "MK roles, enabled, password"], bench.Journal.Changes);
        Assert.All(bench.Journal.Notes, note => Assert.Equal("AD", note.By));
        var text = string.Concat(bench.Journal.Notes) + await File.ReadAllTextAsync(bench.File);
        Assert.DoesNotContain("grey", text, StringComparison.Ordinal);
        Assert.DoesNotContain("cranes", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_made_while_the_journal_cannot_write_is_journalled_later_and_once()
    {
        bench.Journal.IsBroken = true;
        await bench.AddAsync("MK", ClinicRole.Examiner);
        Assert.Empty(bench.Journal.Notes);
        bench.Journal.IsBroken = false;
        // As after a crash: another process, which knows only the file.
        using var restarted = bench.Open(bench.Journal);
        await restarted.CatchUpAsync(CancellationToken.None);
        await restarted.CatchUpAsync(CancellationToken.None);
        Assert.Equal(["MK added"], bench.Journal.Changes);
    }

    [Fact]
    public async Task A_command_beside_the_service_is_seen_by_it_and_journalled_by_it()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var stamp = bench.Desk.Find("MK")!.Stamp;
        using var command = bench.Open(null);
        await command.ChangeAsync(
            new Caller("root (command line)", ClinicRole.Administrator),
            "MK",
            new PersonChange(IsEnabled: false),
            CancellationToken.None
        );
        Assert.NotEqual(stamp, bench.Desk.Find("MK")!.Stamp);
        Assert.False(bench.Desk.Find("MK")!.IsEnabled);
        await bench.Desk.CatchUpAsync(CancellationToken.None);
        Assert.Equal(["MK added", "MK disabled"], bench.Journal.Changes);
        Assert.Equal("root (command line)", bench.Journal.Notes[^1].By);
    }

    public void Dispose() => bench.Dispose();

    private Task<PersonOutcome> AgainAsync(Caller caller, string password) =>
        bench.Desk.ConfirmAsync(caller, password, "console", CancellationToken.None);

    private Task<PersonOutcome> FirstAsync(string code, string who = "AD") =>
        bench.Desk.MakeFirstAdministratorAsync(code, who, PeopleBench.Good, CancellationToken.None);

    private Task<PersonOutcome> OwnAsync(string old, string fresh) =>
        bench.Desk.ChangeOwnPasswordAsync(new Caller("MK", ClinicRole.Examiner), old, fresh, CancellationToken.None);
}
