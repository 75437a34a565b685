using System.Text.Json;

namespace PupilBridge.Console.Lane;

/// <summary>What the service writes into a lane's page for its script.</summary>
/// <param name="Instrument">The instrument's serial number.</param>
/// <param name="Who">Who is signed in.</param>
/// <param name="ProgramVersion">The program's version, for entries.</param>
/// <param name="FormToken">What every request that changes something must bring along.</param>
/// <param name="WantsNames">Whether the clinic keeps patients' names.</param>
/// <param name="Language">The language in which times are written.</param>
/// <param name="SecondsLeft">After how many seconds the session ends whatever is done; null where there is none.</param>
public sealed record LaneData(
    string Instrument,
    string Who,
    string ProgramVersion,
    string FormToken,
    bool WantsNames,
    string Language,
    double? SecondsLeft
)
{
    /// <summary>As a JSON object, with nothing in it that could end a script element.</summary>
    public string AsJson() => JsonSerializer.Serialize(this, JsonSerializerOptions.Web);
}
