using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Bench;

/// <summary>Whether a set of discs can be used.</summary>
internal static class DiscSetEntering
{
    /// <summary>What is wrong with it; null if nothing is.</summary>
    public static EntryObstacle? Obstacle(DiscSetEntered entered)
    {
        var faults = DiscSetCheck.Of(entered.Set);
        return faults.Count == 0
            ? null
            : new EntryObstacle(
                string.Join(" ", faults.Select(fault => ClinicText.Bench.Of("DiscSet", fault))),
                ClinicText.Bench["DiscSet.Next"]
            );
    }
}
