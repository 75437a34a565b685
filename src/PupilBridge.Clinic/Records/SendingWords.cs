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
            SendingOutcome.Again or SendingOutcome.GivenUp => Get(
                sent.Outcome.ToString(),
                sent.Version,
                sent.Reason ?? ""
            ),
            _ => Get(sent.Outcome.ToString(), sent.Version, sent.Destination, sent.Reason ?? ""),
        };

    private static string Get(string outcome, params object[] values) =>
        ClinicText.Outbox.Get($"About.{outcome}", values);
}
