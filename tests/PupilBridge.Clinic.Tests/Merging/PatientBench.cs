using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.Merging;

/// <summary>Merging and parting at a desk, in short.</summary>
internal static class PatientBench
{
    public static MergeEntry Merging(this Support.Clinic clinic, string kept, string merged, bool despite = false) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "DR",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Kept = kept,
            Merged = merged,
            IsDespiteBirthDates = despite,
            Reason = "entered twice at the gate",
        };

    public static PartEntry Parting(this Support.Clinic clinic, string merged, string? merging = null) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "DR",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Merged = merged,
            Merging = merging,
            Reason = "a cousin of that name",
        };

    public static async Task<EntryOutcome.Refused> RefusedAsync(this Support.Clinic clinic, DeskEntry entry)
    {
        var before = clinic.House.Journal.Count;
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(entry));
        Assert.Equal(before, clinic.House.Journal.Count);
        return refused;
    }
}
