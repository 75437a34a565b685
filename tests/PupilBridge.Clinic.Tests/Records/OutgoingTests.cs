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
    public async Task A_signed_version_leaves_as_it_was_signed_with_the_end_of_the_journal()
    {
        var exam = await clinic.ReadyExamAsync();
        await clinic.CountsAsync(clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest));
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

    public void Dispose() => clinic.Dispose();
}
