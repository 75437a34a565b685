using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class SignInTests : IDisposable
{
    private readonly PeopleBench bench = new();

    [Fact]
    public async Task The_right_password_signs_in_and_the_journal_says_so()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var outcome = await bench.SignInAsync(" mk ");
        Assert.Equal(("MK", ClinicRole.Examiner), (outcome.Person?.Who, outcome.Person?.Roles));
        Assert.Equal("", outcome.Words);
        var note = Assert.Single(bench.Journal.Notes.OfType<SignInNote>());
        Assert.Equal(("MK", "MK", SignInEvent.SignedIn, "QA-0001"), (note.By, note.Person, note.Event, note.Where));
    }

    [Fact]
    public async Task A_wrong_password_and_a_name_that_nobody_has_are_told_in_the_same_words()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var wrong = await bench.SignInAsync("MK", "not the password");
        var nobody = await bench.SignInAsync("ZZ", "not the password");
        Assert.Null(wrong.Person);
        Assert.Null(nobody.Person);
        Assert.NotEmpty(wrong.Words);
        Assert.Equal(wrong.Words, nobody.Words);
    }

    [Theory]
    [InlineData("MK")]
    [InlineData("ZZ")]
    public async Task Five_wrong_passwords_lock_any_name_for_five_minutes_then_for_ten(string who)
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await WrongAsync(who, 4);
        Assert.DoesNotContain("locked until", (await LastWrongAsync("QQ")).Words, StringComparison.Ordinal);
        Assert.Contains("locked until 08:05", (await LastWrongAsync(who)).Words, StringComparison.Ordinal);
        // Not even the right password helps now, and asking again makes it no longer.
        Assert.Contains("locked until 08:05", (await bench.SignInAsync(who)).Words, StringComparison.Ordinal);

        bench.Time.Advance(TimeSpan.FromMinutes(5));
        await WrongAsync(who, 4);
        Assert.Contains("locked until 08:15", (await LastWrongAsync(who)).Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lock_ends_by_itself_and_the_right_password_forgets_the_wrong_ones()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await WrongAsync("MK", 5);
        Assert.NotNull(bench.Desk.Find("MK")!.LockedUntil);
        bench.Time.Advance(TimeSpan.FromMinutes(5));
        Assert.Null(bench.Desk.Find("MK")!.LockedUntil);
        Assert.NotNull((await bench.SignInAsync("MK")).Person);
        await WrongAsync("MK", 4);
        Assert.NotNull((await bench.SignInAsync("MK")).Person);
    }

    [Fact]
    public async Task A_lock_outlives_a_restart()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await WrongAsync("MK", 5);
        using var restarted = bench.Open(bench.Journal);
        var outcome = await restarted.SignInAsync("MK", PeopleBench.Good, "console", CancellationToken.None);
        Assert.Contains("locked until 08:05", outcome.Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task An_administrator_ends_a_lock_by_a_new_password_or_by_letting_in(bool byPassword)
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await WrongAsync("MK", 5);
        await bench.ChangeAsync(
            "MK",
            byPassword ? new PersonChange(Password: "four grey pilots") : new PersonChange(IsEnabled: true)
        );
        Assert.NotNull((await bench.SignInAsync("MK", byPassword ? "four grey pilots" : PeopleBench.Good)).Person);
    }

    [Fact]
    public async Task Someone_switched_off_is_told_so_only_with_the_right_password()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await bench.ChangeAsync("MK", new PersonChange(IsEnabled: false));
        var right = await bench.SignInAsync("MK");
        Assert.Null(right.Person);
        Assert.Contains("switched off", right.Words, StringComparison.Ordinal);
        var wrong = await bench.SignInAsync("MK", "not the password");
        Assert.DoesNotContain("switched off", wrong.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_journal_tells_of_refusals_and_locks_but_never_what_was_typed_for_a_name_nobody_has()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        await WrongAsync("MK", 6);
        await bench.SignInAsync("my secret typed into the wrong field", "x");
        Assert.Equal(
            [
                SignInEvent.Refused,
                SignInEvent.Refused,
                SignInEvent.Refused,
                SignInEvent.Refused,
                SignInEvent.LockedOut,
                SignInEvent.LockedOut,
                SignInEvent.Refused,
            ],
            bench.Journal.SignIns
        );
        Assert.All(
            bench.Journal.Notes,
            note => Assert.DoesNotContain("secret", note.ToString(), StringComparison.Ordinal)
        );
        Assert.DoesNotContain("secret", await File.ReadAllTextAsync(bench.File), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Signing_off_is_journalled_with_its_reason()
    {
        await bench.Desk.SignedOffAsync("MK", "QA-0001", SignOffReason.Idle, CancellationToken.None);
        await bench.Desk.SignedOffAsync("MK", "console", SignOffReason.Person, CancellationToken.None);
        await bench.Desk.SignedOffAsync("MK", "console", SignOffReason.LongestLife, CancellationToken.None);
        Assert.Equal(
            [SignInEvent.SignedOffIdle, SignInEvent.SignedOff, SignInEvent.SignedOffLongest],
            bench.Journal.SignIns
        );
    }

    [Fact]
    public async Task A_damaged_access_file_refuses_sign_ins_with_words_and_signs_nobody_off()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        var stamp = bench.Desk.Find("MK")!.Stamp;
        await File.WriteAllTextAsync(bench.File, "{");
        var outcome = await bench.SignInAsync("MK");
        Assert.Null(outcome.Person);
        Assert.Contains(bench.File, outcome.Words, StringComparison.Ordinal);
        Assert.Equal(stamp, bench.Desk.Find("MK")?.Stamp);
        Assert.Equal("{", await File.ReadAllTextAsync(bench.File));
    }

    [Fact]
    public async Task A_journal_that_cannot_write_keeps_nobody_out_and_is_told_of()
    {
        await bench.AddAsync("MK", ClinicRole.Examiner);
        bench.Journal.IsBroken = true;
        Assert.NotNull((await bench.SignInAsync("MK")).Person);
        Assert.Contains(bench.Remarks, remark => remark.Contains("disk is full", StringComparison.Ordinal));
    }

    public void Dispose() => bench.Dispose();

    private async Task WrongAsync(string who, int times)
    {
        for (var n = 0; n < times; n++)
        {
            Assert.Null((await bench.SignInAsync(who, "not the password")).Person);
        }
    }

    private Task<SignInOutcome> LastWrongAsync(string who) => bench.SignInAsync(who, "not the password");
}
