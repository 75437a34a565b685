using System.Text.Json;
using CsCheck;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Tests.Merging;

/// <summary>A merging that is taken back leaves every view as if it had never been.</summary>
public class UndonePropertyTests
{
    private const int Numbers = 4;
    private static readonly JsonSerializerOptions Plain = new();

    [Fact]
    public void Merged_and_parted_every_view_is_as_before() =>
        Gen.Select(
                Gen.Select(Gen.Int[0, Numbers], Gen.Int[3_000, 7_000], Gen.Int[0, 2]).Array[1, 4],
                Gen.Int[1, Numbers],
                Gen.Int[1, Numbers - 1],
                Gen.Bool
            )
            .Sample(
                (exams, kept, step, isWritten) =>
                    RunAsync(exams, kept, 1 + ((kept - 1 + step) % Numbers), isWritten).GetAwaiter().GetResult(),
                iter: 12,
                threads: 1
            );

    private static async Task RunAsync((int Patient, int Left, int How)[] exams, int kept, int merged, bool isWritten)
    {
        using var clinic = new Support.Clinic();
        for (var n = 1; n <= Numbers; n++)
        {
            await clinic.CountsAsync(
                clinic.Patient(Of(n), $"Pilot {n}", n % 2 == 0 ? null : new DateOnly(1970 + n, 3, 4))
            );
        }

        var made = new List<long>();
        foreach (var (patient, left, how) in exams)
        {
            var exam = await clinic.ExamineAsync(patient == 0 ? null : Of(patient), left: left);
            made.Add(exam);
            if (how > 0)
            {
                await clinic.CountsAsync(clinic.Ready(exam));
            }

            if (how > 1 && patient > 0)
            {
                await clinic.CountsAsync(clinic.Signature(exam, (await clinic.RecordAsync(exam)).DraftDigest));
            }
        }

        if (isWritten)
        {
            clinic.House.WriteLog();
        }

        var before = await ViewsAsync(clinic, made);
        await clinic.CountsAsync(clinic.Merging(Of(kept), Of(merged), despite: true));
        var between = await ViewsAsync(clinic, made);
        await clinic.CountsAsync(clinic.Parting(Of(merged)));

        Assert.NotEqual(before, between);
        Assert.Equal(before, await ViewsAsync(clinic, made));
    }

    private static string Of(int number) => $"Q-{1000 + number}";

    /// <summary>Everything that is read of patients and their exams, as text.</summary>
    private static async Task<string> ViewsAsync(Support.Clinic clinic, List<long> exams)
    {
        var views = new List<object?>();
        for (var n = 1; n <= Numbers; n++)
        {
            views.Add(await clinic.Records.ShowPatientAsync(Of(n), default));
            views.Add(await clinic.Records.HistoryAsync(Of(n), 50, default));
            views.Add(await clinic.Records.SearchExamsAsync(new ExamSearch { Patient = Of(n) }, default));
            views.Add(await clinic.Desk.ListExamsAsync(new ExamListRequest { Patient = Of(n) }, default));
        }

        views.Add(await clinic.Records.FindPatientsAsync("", null, 50, default));
        views.Add(await clinic.Records.ListForReviewAsync(null, 50, default));
        foreach (var exam in exams)
        {
            views.Add(await clinic.Records.ShowRecordAsync(exam, default));
            views.Add(await clinic.Records.ShowOutgoingAsync(exam, null, default));
            views.Add(await clinic.Desk.ChartAsync(exam, default));
        }

        return string.Join(
            '\n',
            views.Select(view => JsonSerializer.Serialize(view, view?.GetType() ?? typeof(object), Plain))
        );
    }
}
