using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Showing;

/// <summary>What went wrong around an exam, in words for whoever reads it.</summary>
internal static class IncidentWords
{
    /// <summary>The words.</summary>
    public static string Of(IncidentKind kind) =>
        kind switch
        {
            IncidentKind.EventsLost => "Events are lost for good.",
            IncidentKind.Conflict => "An event came twice with different content; the first one stands.",
            IncidentKind.InstrumentFault => "The instrument reported a fault.",
            IncidentKind.Restarted => "The instrument started anew during the exam.",
            IncidentKind.LineLost => "The line was lost.",
            IncidentKind.LineStalled => "The line went quiet.",
            IncidentKind.LineBack => "The line came back.",
            IncidentKind.ArrivedLate => "An event arrived after the exam was over and surely belongs to it.",
            IncidentKind.UnknownEvent => "An event of an unknown kind is kept word for word.",
            IncidentKind.IdentityUnknown => "The instrument has not said who it is.",
            IncidentKind.LampOutOfTurn => "The lamps did not go on and off in turn.",
            IncidentKind.EntryNotApplied => "An entry could not be applied.",
            IncidentKind.IdentityChanged => "The instrument said something else of itself than before.",
            IncidentKind.EventUnplaced =>
                "An event belongs to no exam: its time is too uncertain to say on which side of this exam's border it was.",
            IncidentKind.ArrivedAfterSigning =>
                "The instrument told more of this exam after its record was signed; what was signed does not hold it.",
            IncidentKind.EntryWithdrawn => "An entry was taken back.",
            _ => $"{Shown.Word(kind)}.",
        };
}
