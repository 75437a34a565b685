using System.Text.Json;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.History;

/// <summary>A patient's visits as one JSON document: names in camel case, times in UTC, absent values as null.</summary>
public static class HistoryJson
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>Writes the visits.</summary>
    /// <param name="history">The visits.</param>
    /// <returns>The document.</returns>
    public static string Write(PatientHistory history) => JsonSerializer.Serialize(history, Options);
}
