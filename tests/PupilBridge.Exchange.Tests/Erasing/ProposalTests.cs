using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Erasing.Proposals;
using PupilBridge.Clinic.Views;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Exchange.Tests.Erasing;

/// <summary>An erasure that one proposes and another one confirms, in a real house that seals what identifies patients.</summary>
public sealed class ProposalTests : IAsyncDisposable
{
    private const string One = "Q-1001-GOESAWAY";
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);
    private readonly ErasingHouse house = new();
    private readonly FakeTimeProvider time = new(Now);

    public ValueTask DisposeAsync() => house.DisposeAsync();

    [Fact]
    public async Task Another_one_confirms_by_the_number_and_then_the_patient_is_erased_as_by_the_command()
    {
        await house.Exams.NameAsync(One, "Harbour Goesaway", new DateOnly(1980, 5, 17));
        var exam = await house.Exams.SignAsync(One);
        using var proposals = Open();
        var proposed = await ProposedAsync(proposals);
        Assert.Null(house.Exams.Exam(exam).Erasure);

        var outcome = await ConfirmAsync(proposals, proposed.Id, "CD", One);

        Assert.True(outcome.IsDone, outcome.Words);
        Assert.Contains("of 1 exam(s) 1 signed record(s)", outcome.Words, StringComparison.Ordinal);
        Assert.Contains("Make a backup now", outcome.Words, StringComparison.Ordinal);
        var erasure = house.Exams.Exam(exam).Erasure!;
        Assert.Equal(
            ("CD", "DPO", "request 17 (proposed by AD)"),
            (erasure.Who.Value, erasure.OrderedBy, erasure.Reason)
        );
        Assert.Empty(await proposals.ListAsync(default));
        house.NowhereOnDisk(One, "Goesaway", "1980-05-17");
        Assert.False((await ConfirmAsync(proposals, proposed.Id, "CD", One)).IsDone);
    }

    [Fact]
    public async Task It_stands_over_a_restart_and_its_file_is_its_owners_and_does_not_tell_the_number()
    {
        await house.Exams.SignAsync(One);
        using (var before = Open())
        {
            await ProposedAsync(before);
        }

        var path = Path.Combine(house.Exams.DataFolder, "erasure-proposals.json");
        Assert.DoesNotContain(One, await File.ReadAllTextAsync(path), StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        }

        using var after = Open();
        var stands = Assert.Single(await after.ListAsync(default));
        Assert.Equal(
            (One, "DPO", "request 17", "AD", Now, Now.AddDays(7)),
            (stands.Patient, stands.OrderedBy, stands.Reason, stands.By, stands.At, stands.Until)
        );
        Assert.True((await ConfirmAsync(after, stands.Id, "CD", One)).IsDone);
    }

    [Theory]
    [InlineData("AD", One, "cannot confirm it")]
    [InlineData("ad", One, "cannot confirm it")]
    [InlineData("CD", "Q-1001", "not typed as it stands")]
    [InlineData("CD", "", "not typed as it stands")]
    public async Task Whoever_proposed_it_cannot_confirm_it_and_nobody_can_by_another_number(
        string who,
        string number,
        string words
    )
    {
        var exam = await house.Exams.SignAsync(One);
        using var proposals = Open();
        var proposed = await ProposedAsync(proposals);
        var refused = await ConfirmAsync(proposals, proposed.Id, who, number);
        Assert.False(refused.IsDone);
        Assert.Contains(words, refused.Words, StringComparison.Ordinal);
        Assert.Null(house.Exams.Exam(exam).Erasure);
        Assert.Single(await proposals.ListAsync(default));
    }

    [Fact]
    public async Task What_was_withdrawn_and_what_is_older_than_seven_days_erases_nobody()
    {
        var exam = await house.Exams.SignAsync(One);
        using var proposals = Open();
        var first = await ProposedAsync(proposals);
        Assert.True((await proposals.WithdrawAsync(first.Id, default)).IsDone);
        Assert.False((await proposals.WithdrawAsync(first.Id, default)).IsDone);
        Assert.False((await ConfirmAsync(proposals, first.Id, "CD", One)).IsDone);

        var second = await ProposedAsync(proposals);
        time.Advance(TimeSpan.FromDays(7) - TimeSpan.FromSeconds(1));
        Assert.Single(await proposals.ListAsync(default));
        time.Advance(TimeSpan.FromSeconds(1));
        Assert.Empty(await proposals.ListAsync(default));
        var late = await ConfirmAsync(proposals, second.Id, "CD", One);
        Assert.Contains("does not stand any more", late.Words, StringComparison.Ordinal);
        Assert.Null(house.Exams.Exam(exam).Erasure);
    }

    [Fact]
    public async Task What_would_be_in_the_way_of_the_erasure_is_in_the_way_of_proposing_it()
    {
        await house.Exams.NameAsync(One, "Harbour Goesaway", new DateOnly(1980, 5, 17));
        await house.Exams.SignAsync(One);
        using var proposals = Open();
        (ErasePatientEntry Order, string Words)[] orders =
        [
            (house.Order(One, "Mr Goesaway wants it"), "stay readable"),
            (house.Order(One, $"asked for by {One}"), "stay readable"),
            (house.Order(One) with { OrderedBy = "goesaway" }, "stay readable"),
            (house.Order(One, " "), "reason"),
            (house.Order("Q-9999"), "Nothing that can be erased is known"),
            (house.Order("erased-1"), "erased-1"),
        ];
        foreach (var (order, words) in orders)
        {
            var refused = await proposals.ProposeAsync(order, default);
            Assert.False(refused.IsDone, order.Reason);
            Assert.Contains(words, refused.Words, StringComparison.OrdinalIgnoreCase);
        }

        var open = await house.Exams.OpenAsync(One);
        Assert.Contains(
            $"exam {open}",
            (await proposals.ProposeAsync(house.Order(One), default)).Words,
            StringComparison.Ordinal
        );
        Assert.Empty(await proposals.ListAsync(default));
    }

    [Fact]
    public async Task A_patient_is_proposed_once_and_the_same_form_sent_twice_is_one_proposal()
    {
        await house.Exams.SignAsync(One);
        using var proposals = Open();
        var order = house.Order(One);
        Assert.True((await proposals.ProposeAsync(order, default)).IsDone);
        Assert.True((await proposals.ProposeAsync(order, default)).IsDone);
        var again = await proposals.ProposeAsync(house.Order(One), default);
        Assert.Contains("proposed already, by AD", again.Words, StringComparison.Ordinal);
        Assert.Single(await proposals.ListAsync(default));
    }

    [Fact]
    public async Task Where_the_command_erased_first_the_proposal_is_gone_and_no_new_one_takes_its_entry()
    {
        await house.Exams.SignAsync(One);
        await house.Exams.SignAsync("Q-1002");
        using var proposals = Open();
        var proposed = await ProposedAsync(proposals);
        var byCommand = house.Order(One);
        Assert.IsType<EntryOutcome.Recorded>(await house.EnterAsync(byCommand));
        Assert.Empty(await proposals.ListAsync(default));
        Assert.False((await ConfirmAsync(proposals, proposed.Id, "CD", One)).IsDone);
        var stolen = house.Order("Q-1002") with { EntryId = byCommand.EntryId };
        Assert.Contains("sent before", (await proposals.ProposeAsync(stolen, default)).Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_in_which_somebody_changed_who_proposed_it_holds_no_proposal_and_a_broken_one_is_named()
    {
        var exam = await house.Exams.SignAsync(One);
        using var proposals = Open();
        var proposed = await ProposedAsync(proposals);
        var path = Path.Combine(house.Exams.DataFolder, "erasure-proposals.json");
        var text = await File.ReadAllTextAsync(path);
        await File.WriteAllTextAsync(path, text.Replace("\"AD\"", "\"ZZ\"", StringComparison.Ordinal));
        Assert.Empty(await proposals.ListAsync(default));
        Assert.False((await ConfirmAsync(proposals, proposed.Id, "AD", One)).IsDone);
        await File.WriteAllTextAsync(path, "{");
        Assert.Contains(
            path,
            (await proposals.ProposeAsync(house.Order(One), default)).Words,
            StringComparison.Ordinal
        );
        Assert.Null(house.Exams.Exam(exam).Erasure);
    }

    [Fact]
    public async Task Where_nothing_is_sealed_it_is_refused_with_what_can_be_done()
    {
        await using var plain = new ErasingHouse(SealingChoice.Never);
        await plain.Exams.SignAsync(One);
        using var proposals = new ErasureProposals(plain.Exams.House, plain.Exams.DataFolder, time);
        var refused = await proposals.ProposeAsync(plain.Order(One), default);
        Assert.Contains("Bridge:Sealing", refused.Words, StringComparison.Ordinal);
        Assert.Empty(await proposals.ListAsync(default));
    }

    private ErasureProposals Open() => new(house.Exams.House, house.Exams.DataFolder, time);

    private async Task<ProposalView> ProposedAsync(ErasureProposals proposals)
    {
        var outcome = await proposals.ProposeAsync(house.Order(One), default);
        Assert.True(outcome.IsDone, outcome.Words);
        return Assert.Single(await proposals.ListAsync(default));
    }

    private Task<ProposalOutcome> ConfirmAsync(ErasureProposals proposals, string id, string who, string number) =>
        proposals.ConfirmAsync(new(id, number, who, Now, "0.1.0"), house.EnterAsync, default);
}
