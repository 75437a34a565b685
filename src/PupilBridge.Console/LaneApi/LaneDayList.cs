using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.LaneApi;

/// <summary>The list of a day as a lane offers it.</summary>
/// <param name="Day">The day.</param>
/// <param name="Patients">The patients in the list's order.</param>
internal sealed record LaneDayList(DateOnly Day, IReadOnlyList<LaneDayListPatient> Patients)
{
    /// <summary>Takes from the list what a lane needs to offer it.</summary>
    public static LaneDayList Of(DayListView list) =>
        new(
            list.Day,
            [
                .. list.Items.Select(item => new LaneDayListPatient(
                    item.Patient.Patient,
                    item.Patient.Name,
                    item.Patient.BirthDate,
                    item.Time,
                    item.Exam?.Exam
                )),
            ]
        );
}

/// <summary>One patient on the list.</summary>
/// <param name="Patient">The clinic's number.</param>
/// <param name="Name">The name; null if the clinic keeps none.</param>
/// <param name="BirthDate">The date of birth; null if it is not known.</param>
/// <param name="Time">When they are expected; null if it was not said.</param>
/// <param name="Exam">The number of their exam of that day; null if there is none yet.</param>
internal sealed record LaneDayListPatient(string Patient, string? Name, DateOnly? BirthDate, string? Time, long? Exam);

/// <summary>What only the lane's part of the web API says, as JSON.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(LaneDayList))]
internal sealed partial class LaneApiJson : JsonSerializerContext;
