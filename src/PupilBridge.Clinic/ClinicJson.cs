using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>All that crosses the desk, as JSON: names in camel case, absent values as null, times in UTC.</summary>
[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web,
    UseStringEnumConverter = true,
    AllowOutOfOrderMetadataProperties = true
)]
[JsonSerializable(typeof(DeskEntry))]
[JsonSerializable(typeof(EntryOutcome))]
[JsonSerializable(typeof(ExamListRequest))]
[JsonSerializable(typeof(ExamList))]
[JsonSerializable(typeof(ExamView))]
[JsonSerializable(typeof(ChartView))]
[JsonSerializable(typeof(AskedForView))]
[JsonSerializable(typeof(PatientList))]
[JsonSerializable(typeof(InstrumentList))]
[JsonSerializable(typeof(LaneView))]
[JsonSerializable(typeof(LaneBoard))]
[JsonSerializable(typeof(SwitchOffOutcome))]
public sealed partial class ClinicJson : JsonSerializerContext;
