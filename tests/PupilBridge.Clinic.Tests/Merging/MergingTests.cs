using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.Merging;

/// <summary>What is refused, and what to do then.</summary>
public sealed class MergingTests : IDisposable
{
    private static readonly DateOnly Born = new(1980, 5, 17);
    private readonly Support.Clinic clinic = new();

    [Theory]
    [InlineData("Q-1001", "Q-1001", "cannot be merged with itself", "two numbers")]
    [InlineData("Q-1003", "Q-1002", "Q-1002 is merged into Q-1001 already", "take that merging back first")]
    [InlineData("Q-1002", "Q-1003", "Q-1002 is itself merged into Q-1001", "merge Q-1003 into Q-1001")]
    [InlineData("Q-1002", "Q-1001", "would be a circle", "then merge Q-1001 into Q-1002")]
    [InlineData("Q-1003", "Q-1001", "Q-1002 is merged into Q-1001", "Merge Q-1003 into Q-1001")]
    [InlineData("Q-9", "Q-1003", "No patient Q-9", "entered as a patient first")]
    [InlineData("Q-1001", "Q-9", "There is no patient Q-9", "Check the number")]
    public async Task What_would_make_no_sense_is_refused(string kept, string merged, string reason, string next)
    {
        await PatientsAsync();
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"));

        var refused = await clinic.RefusedAsync(clinic.Merging(kept, merged));

        Assert.Contains(reason, refused.Reason, StringComparison.Ordinal);
        Assert.Contains(next, refused.NextStep, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dates_of_birth_that_differ_must_be_said_again()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", null, Born), clinic.Patient("Q-1002", null, Born.AddDays(1)));

        var refused = await clinic.RefusedAsync(clinic.Merging("Q-1001", "Q-1002"));
        Assert.Contains("1980-05-17", refused.Reason, StringComparison.Ordinal);
        Assert.Contains("1980-05-18", refused.Reason, StringComparison.Ordinal);

        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002", despite: true));
        Assert.True(Assert.IsType<PatientsMerged>(clinic.House.Journal[^1]).IsDespiteBirthDates);
    }

    [Fact]
    public async Task That_they_differ_is_journalled_only_where_they_do()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", null, Born), clinic.Patient("Q-1002", null));
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002", despite: true));
        Assert.False(Assert.IsType<PatientsMerged>(clinic.House.Journal[^1]).IsDespiteBirthDates);
    }

    [Fact]
    public async Task A_number_that_only_exams_know_can_be_merged()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", null));
        await clinic.OpenAsync("Q-1O01");
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1O01"));
        Assert.Single((await clinic.Records.HistoryAsync("Q-1001", 50, default)).Visits);
    }

    [Fact]
    public async Task A_merging_is_taken_back_once_and_only_the_one_that_was_seen()
    {
        await PatientsAsync();
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"));
        var seen = (await clinic.Records.HistoryAsync("Q-1001", 50, default)).Mergings.Single().Merging;
        Assert.Contains(
            "Q-1002",
            (await clinic.RefusedAsync(clinic.Parting("Q-1001"))).NextStep,
            StringComparison.Ordinal
        );

        await clinic.CountsAsync(clinic.Parting("Q-1002", seen));
        Assert.Contains(
            "parted already",
            (await clinic.RefusedAsync(clinic.Parting("Q-1002", seen))).Reason,
            StringComparison.Ordinal
        );

        await clinic.CountsAsync(clinic.Merging("Q-1003", "Q-1002"));
        Assert.Contains(
            "merged again since, into Q-1003",
            (await clinic.RefusedAsync(clinic.Parting("Q-1002", seen))).Reason,
            StringComparison.Ordinal
        );
        await clinic.CountsAsync(clinic.Parting("Q-1002"));
    }

    [Fact]
    public async Task Why_must_be_said()
    {
        await PatientsAsync();
        await clinic.RefusedAsync(clinic.Merging("Q-1001", "Q-1002") with { Reason = " " });
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"));
        await clinic.RefusedAsync(clinic.Parting("Q-1002") with { Reason = "" });
    }

    [Fact]
    public async Task The_same_entry_sent_again_is_the_same_one()
    {
        await PatientsAsync();
        var merging = clinic.Merging("Q-1001", "Q-1002");
        var parting = clinic.Parting("Q-1002");
        await clinic.CountsAsync(merging, parting);

        Assert.IsType<EntryOutcome.AlreadyRecorded>(await clinic.EnterAsync(merging));
        Assert.IsType<EntryOutcome.AlreadyRecorded>(await clinic.EnterAsync(parting));
        Assert.Empty(clinic.House.Book.Mergings.All);
    }

    [Fact]
    public async Task The_journal_says_both_in_words()
    {
        await PatientsAsync();
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"), clinic.Parting("Q-1002"));
        var last = clinic.House.Journal.Count;
        Assert.Equal(
            "DR merged patient Q-1002 into Q-1001: entered twice at the gate",
            (await clinic.Records.ShowRawAsync(last - 1, default))!.Words
        );
        Assert.Contains(
            "took back the merging",
            (await clinic.Records.ShowRawAsync(last, default))!.Words,
            StringComparison.Ordinal
        );
    }

    public void Dispose() => clinic.Dispose();

    private Task PatientsAsync() =>
        clinic.CountsAsync(
            clinic.Patient("Q-1001", "A. Pilot", Born),
            clinic.Patient("Q-1002", "A. Pilott", Born),
            clinic.Patient("Q-1003", "C. Crane")
        );
}
