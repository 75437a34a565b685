using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Merging;

/// <summary>What is in the way of merging two patients, and of parting them, in words for whoever wants to.</summary>
internal static class MergingObstacles
{
    /// <summary>Looks at a merging, and notes in it whether it stands against the dates of birth.</summary>
    /// <returns>Null if nothing is in the way.</returns>
    /// <exception cref="ExamLog.ExamLogBrokenException">What is known cannot be read now.</exception>
    public static EntryObstacle? Of(IClinicHouse house, ref PatientsMerged entry)
    {
        var (kept, merged) = (entry.Kept, entry.Merged);
        if (house.Book.Mergings.WhyNot(kept, merged) is { } obstacle)
        {
            return Of(house.Book.Mergings, kept, merged, obstacle);
        }

        if (house.FindPatient(kept) is not { } keptKnown)
        {
            return Obstacle(MergingFault.UnknownKept, kept);
        }

        var mergedKnown = house.FindPatient(merged);
        if (mergedKnown is null && !HasExam(house, merged))
        {
            return Obstacle(MergingFault.UnknownMerged, merged);
        }

        var (one, other) = (Identity.Of(keptKnown), Identity.Of(mergedKnown));
        var differ = one.BirthDate is { } born && other.BirthDate is { } otherBorn && born != otherBorn;
        if (differ && !entry.IsDespiteBirthDates)
        {
            return Obstacle(
                MergingFault.BirthDates,
                kept,
                Shown.Day(one.BirthDate!.Value),
                merged,
                Shown.Day(other.BirthDate!.Value)
            );
        }

        entry = entry with { IsDespiteBirthDates = differ };
        return null;
    }

    /// <summary>Finds the merging that is to be taken back, and puts it into the entry.</summary>
    /// <returns>Null if nothing is in the way.</returns>
    public static EntryObstacle? Of(IClinicHouse house, PartEntry given, ref PatientsParted entry)
    {
        var number = Given.Patient(given.Merged);
        var mergings = house.Book.Mergings;
        if (mergings.Of(number) is not { } merging)
        {
            var into = string.Join(", ", mergings.Into(number).Select(one => one.Merged));
            return into.Length == 0
                ? Obstacle(MergingFault.NotMerged, number)
                : Obstacle(MergingFault.PartTheOther, number, into);
        }

        if (entry.Merging != default && entry.Merging != merging.Entry)
        {
            return Obstacle(MergingFault.MergedAnew, number, merging.Kept, merging.Who);
        }

        entry = entry with { Merging = merging.Entry, Kept = merging.Kept, Merged = merging.Merged };
        return null;
    }

    private static EntryObstacle Of(
        PatientMergings mergings,
        PatientId kept,
        PatientId merged,
        MergingObstacle obstacle
    ) =>
        obstacle switch
        {
            MergingObstacle.GoneAlready => Obstacle(MergingFault.GoneAlready, merged, mergings.Surviving(merged)),
            MergingObstacle.KeptIsGone when mergings.Surviving(kept) == merged => Obstacle(
                MergingFault.Circle,
                kept,
                merged
            ),
            MergingObstacle.KeptIsGone => Obstacle(MergingFault.KeptIsGone, kept, mergings.Surviving(kept), merged),
            MergingObstacle.OthersLeadHere => Obstacle(
                MergingFault.OthersLeadHere,
                merged,
                string.Join(", ", mergings.Into(merged).Select(one => one.Merged)),
                kept
            ),
            _ => Obstacle(MergingFault.WithItself, kept),
        };

    private static bool HasExam(IClinicHouse house, PatientId number) =>
        ExamListing.Of(house, new ExamListRequest { Patient = number.Value, Limit = 1 }).Exams.Count > 0;

    private static EntryObstacle Obstacle(MergingFault fault, params object[] values) =>
        new(ClinicText.Desk.Of("Merge", fault, values), ClinicText.Desk.Of("MergeNext", fault, values));
}
