using System.Net.Http.Headers;
using System.Text;
using Moq;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.WebApi;

/// <summary>The console with real people and keys on disk, and programs that bring keys along.</summary>
internal sealed class ApiHouse : IDisposable
{
    public static readonly Caller Administrator = new("AD", ClinicRole.Administrator);

    public SignInHouse House { get; } = new();

    public async Task<string> KeyAsync(string name, params string[] scopes)
    {
        var made = await House.People.AddKeyAsync(Administrator, name, scopes, default);
        Assert.True(made.Done, made.Words);
        return made.Key!;
    }

    public HttpClient With(string? key)
    {
        var client = House.Client();
        if (key is not null)
        {
            client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }

        return client;
    }

    public static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");

    public static ExamSummary Summary(long exam) =>
        new()
        {
            Exam = exam,
            Patient = "Q-1001",
            OpenedAt = new DateTimeOffset(2026, 3, 2, 9, 0, 0, TimeSpan.Zero),
            Status = "open",
            Instrument = "8F3A",
            Examiner = "MK",
            ChartLine = "P",
        };

    public void Lists(string? next, params long[] exams) =>
        House
            .Clinic.Setup(desk => desk.ListExamsAsync(It.IsAny<ExamListRequest>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new ExamList([.. exams.Select(Summary)], next));

    public void Dispose() => House.Dispose();
}
