using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Tests.Records;

/// <summary>A signed record is put right by a new version beside it.</summary>
public sealed class AmendingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task An_amendment_is_a_new_version_with_a_reason_beside_the_old_one()
    {
        var exam = await clinic.SignedExamAsync();
        var first = Assert.Single((await clinic.RecordAsync(exam)).SignedVersions);

        await clinic.CountsAsync(clinic.Amending(exam, "grade of OD mistyped"));
        var amending = await clinic.RecordAsync(exam);
        Assert.True(amending.IsBeingAmended);
        await clinic.CountsAsync(clinic.Judging(exam, "direct OD 2"));
        await clinic.CountsAsync(clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest));

        var record = await clinic.RecordAsync(exam);
        Assert.Equal("amended", record.Exam.Summary.Status);
        Assert.False(record.IsBeingAmended);
        Assert.Equal([1, 2], record.SignedVersions.Select(version => version.Version));
        Assert.Equal(first, record.SignedVersions[0]);
        var second = SignedRecordText.Read(record.SignedVersions[1].Record);
        Assert.Equal(("grade of OD mistyped", first.Digest), (second.AmendmentReason, second.PreviousDigest));
        Assert.Equal("grade of OD mistyped", record.SignedVersions[1].Reason);
        Assert.Contains("2+", record.SignedVersions[1].ChartBlock, StringComparison.Ordinal);
        Assert.Equal(record.SignedVersions[1].ChartLine, record.Exam.Chart.Line);
        Assert.Equal(
            ["made ready for review", "signed", "began to amend", "signed"],
            record.Course.Select(step => step.Words).TakeLast(4)
        );
    }

    [Fact]
    public async Task What_is_not_signed_needs_no_amendment_and_a_reason_must_be_given()
    {
        var exam = await clinic.ReadyExamAsync();
        var unsigned = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Amending(exam, "why not")));
        Assert.Contains("it is not signed", unsigned.Reason, StringComparison.Ordinal);

        var signed = await clinic.SignedExamAsync();
        var blank = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Amending(signed, "  ")));
        Assert.Equal("The reason is missing; give it.", blank.Reason);
    }

    public void Dispose() => clinic.Dispose();
}
