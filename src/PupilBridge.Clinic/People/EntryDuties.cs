using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.People;

/// <summary>Which of the <see cref="Roles"/> an entry needs.</summary>
public static class EntryDuties
{
    /// <summary>The policy for an entry.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>One of the names of <see cref="Roles"/>.</returns>
    public static string Of(DeskEntry entry) =>
        entry switch
        {
            SignEntry or AmendEntry or SetAsideEntry or MergeEntry or PartEntry => Roles.Sign,
            SendingEntry => Roles.Sending,
            ErasePatientEntry => Roles.Erasing,
            PatientEntry or DayListEntry => Roles.Patients,
            DiscSetEntry or BeginRunEntry or RunDeskEntry or LampBalanceEntry => Roles.Bench,
            _ => Roles.Lane,
        };

    /// <summary>Whether an entry puts a person's name under a record: only that person, signed in at the console, may.</summary>
    /// <param name="entry">The entry.</param>
    public static bool IsSignature(DeskEntry entry) => entry is SignEntry or AmendEntry;
}
