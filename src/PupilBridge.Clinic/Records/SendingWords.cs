using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Records;

/// <summary>A step of a sending, to stand within a sentence.</summary>
internal static class SendingWords
{
    /// <summary>The words.</summary>
    public static string Of(RecordSent sent) =>
        sent.Outcome switch
        {
            SendingOutcome.Sent when sent.IsWithdrawal => Get("Withdrawn", sent.Version, sent.Destination),
            _ => Get(sent.Outcome.ToString(), sent.Version, sent.Destination, sent.Reason ?? ""),
        };

    /// <summary>The words of a decision.</summary>
    public static string Of(SendingDecided decided) =>
        Get(decided.Decision.ToString(), decided.Version, decided.Reason ?? "");

    private static string Get(string outcome, params object[] values) =>
        ClinicText.Outbox.Get($"About.{outcome}", values);
}
