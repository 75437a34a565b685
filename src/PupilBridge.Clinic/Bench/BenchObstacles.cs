using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Bench;

/// <summary>What is in the way of an entry of the bench, after what only the house knows was put into it.</summary>
internal static class BenchObstacles
{
    /// <summary>Null if nothing is, or if the entry is none of the bench.</summary>
    public static EntryObstacle? Of(IClinicHouse house, DeskEntry given, ref PersonEntry entry)
    {
        EntryObstacle? obstacle = null;
        switch (given, entry)
        {
            case (_, DiscSetEntered discs):
                return DiscSetEntering.Obstacle(discs);
            case (BeginRunEntry wish, BenchRunBegun begun):
                entry = Beginning.Compose(house, wish, begun, out obstacle);
                return obstacle;
            case (IssueEntry wish, CalibrationIssued issued):
                entry = Issuing.Compose(house, wish, issued, out obstacle);
                return obstacle;
            case (AdoptRepeatabilityEntry, RepeatabilityAdopted adopted):
                entry = Adopt(house, adopted, out obstacle);
                return obstacle;
            // Whoever does runs says nothing of patients' exams.
            case (RunRoomLightEntry, RoomLightEntered light) when house.FindRun(light.Exam) is null:
                return new(ClinicText.Bench.Get("Run.None", light.Exam), ClinicText.Bench["Run.NoneNext"]);
            case (LampBalanceEntry, LampBalanceEntered lamps) when house.Book.Lane(lamps.Serial) is null:
                return new(
                    ClinicText.Bench.Get("Begin.NeverMet", lamps.Serial),
                    ClinicText.Bench["Begin.NeverMetNext"]
                );
            case (LampBalanceEntry { FromRun: { } run }, LampBalanceEntered lamps):
                entry = LampReadings.Take(house, new ExamId(run), lamps, out obstacle);
                return obstacle;
            default:
                return null;
        }
    }

    private static RepeatabilityAdopted Adopt(
        IClinicHouse house,
        RepeatabilityAdopted adopted,
        out EntryObstacle? obstacle
    )
    {
        obstacle = null;
        if (house.FindRun(adopted.Exam) is not { Bench.Kind: BenchRunKind.LiveRepeatability } run)
        {
            obstacle = new(ClinicText.Bench.Get("Adopt.NoStudy", adopted.Exam), ClinicText.Bench["Adopt.NoStudyNext"]);
            return adopted;
        }

        var outcome = LiveStudyOutcome.Of(run);
        if (outcome.Found is not { } found)
        {
            obstacle = new(outcome.Refusal ?? "", ClinicText.Bench["Adopt.NoStudyNext"]);
            return adopted;
        }

        return adopted with
        {
            WithinMillimetres = found.WithinMillimetres,
            DegreesOfFreedom = found.DegreesOfFreedom,
        };
    }
}
