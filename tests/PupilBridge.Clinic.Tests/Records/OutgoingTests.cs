using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class OutgoingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_draft_says_that_nobody_signed_it()
    {
        var exam = await clinic.ReadyExamAsync();

        var draft = await clinic.Records.ShowOutgoingAsync(exam, null, CancellationToken.None);

        Assert.Null(draft!.Signature);
        Assert.False(draft.IsSetAside);
        Assert.Equal("Q-1001", draft.Record.Patient);
        Assert.Equal(
            (await clinic.RecordAsync(exam)).DraftDigest,
            SignedRecordText.Digest(SignedRecordText.Write(draft.Record))
        );
    }

    [Fact]
    public async Task A_draft_says_what_would_be_signed_with_the_visits_before_it()
    {
        await clinic.ReadyExamAsync();
        var exam = await clinic.ReadyExamAsync(right: 6_000);
        clinic.House.WriteLog();

        var draft = await clinic.Records.ShowOutgoingAsync(exam, null, CancellationToken.None);

        Assert.Contains(
            draft!.Record.Findings,
            one => one is { Criterion: "size-changed", Verdict: not "not-examined" }
        );
        Assert.Equal(
            (await clinic.RecordAsync(exam)).DraftDigest,
            SignedRecordText.Digest(SignedRecordText.Write(draft.Record))
        );
    }

    [Fact]
    public async Task A_signed_version_leaves_as_it_was_signed_with_the_end_of_the_journal()
    {
        var exam = await clinic.SignedExamAsync();
        clinic.House.Head = new JournalPosition(42, default);

        var signed = await clinic.Records.ShowOutgoingAsync(exam, 1, CancellationToken.None);

        var version = Assert.Single((await clinic.RecordAsync(exam)).SignedVersions);
        Assert.Equal(version.Record, SignedRecordText.Write(signed!.Record));
        Assert.Equal(
            ("DR", version.At, version.Sequence, version.Digest, true),
            (
                signed.Signature!.Who,
                signed.Signature.At,
                signed.Signature.Sequence,
                signed.Signature.Digest,
                signed.Signature.IsLatest
            )
        );
        Assert.Equal(42, signed.Head!.Sequence);
    }

    [Fact]
    public async Task What_is_not_there_does_not_leave()
    {
        var exam = await clinic.ReadyExamAsync();

        Assert.Null(await clinic.Records.ShowOutgoingAsync(exam, 1, CancellationToken.None));
        Assert.Null(await clinic.Records.ShowOutgoingAsync(exam + 1000, null, CancellationToken.None));
        Assert.Null(await clinic.Records.ShowOutgoingAsync(0, null, CancellationToken.None));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(100)]
    public async Task Pages_together_hold_every_exam_once_the_latest_first_and_the_open_one_too(int limit)
    {
        var exams = new List<long>();
        for (var n = 0; n < 3; n++)
        {
            exams.Add(await clinic.ReadyExamAsync($"Q-{1001 + n}"));
        }

        await clinic.CountsAsync(clinic.Signature(exams[1], (await clinic.RecordAsync(exams[1])).DraftDigest));
        clinic.House.WriteLog();

        var all = new List<OutgoingRecord>();
        string? after = null;
        do
        {
            var page = await clinic.Records.ListOutgoingAsync(
                new OutgoingSearch { After = after, Limit = limit },
                CancellationToken.None
            );
            Assert.True(page.Records.Count <= limit);
            all.AddRange(page.Records);
            after = page.Next;
        } while (after is not null);

        Assert.Equal(exams.AsEnumerable().Reverse(), all.Select(one => one.Record.Exam));
        Assert.Equal([false, true, false], all.Select(one => one.Signature is not null));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(101)]
    public async Task A_page_of_no_or_too_many_records_is_explained(int limit) =>
        Assert.Contains(
            "100",
            (
                await Assert.ThrowsAsync<EntryProblemException>(() =>
                    clinic.Records.ListOutgoingAsync(new OutgoingSearch { Limit = limit }, CancellationToken.None)
                )
            ).Message,
            StringComparison.Ordinal
        );

    public void Dispose() => clinic.Dispose();
}
