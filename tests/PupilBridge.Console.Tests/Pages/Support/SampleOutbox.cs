using PupilBridge.Clinic.Outbox;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>Signed versions on their way to another system.</summary>
internal static class SampleOutbox
{
    public static OutboxLine Refused { get; } =
        new(
            2500,
            1,
            "Q-1001",
            SampleExams.Morning,
            "refused",
            "refused",
            3,
            SampleExams.Morning.AddMinutes(5),
            "service",
            "hospital",
            422,
            null,
            "it answered 422: no <such> patient",
            CanRetry: true,
            CanWithhold: true
        );

    public static OutboxLine Sent { get; } =
        Refused with
        {
            Exam = 2600,
            Version = 2,
            State = "sent",
            StateWords = "sent",
            AnswerCode = 200,
            Location = "DiagnosticReport/7",
            Reason = null,
            CanRetry = false,
            CanWithhold = false,
        };

    public static SendingState Going { get; } = new("hospital", "https://records.example/fhir", null, null, null);

    public static OutboxPage Page(params OutboxLine[] lines) => new(Going, lines, null);
}
