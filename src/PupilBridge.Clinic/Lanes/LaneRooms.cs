using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>The room light, as a sensor, a switch or a person said it.</summary>
internal static class LaneRooms
{
    /// <summary>A sensor's reading that is neither bright nor dim.</summary>
    private const string Between = "between";

    /// <summary>The room light.</summary>
    public static LaneRoom Of(LaneSight sight)
    {
        var said = sight.Exam is { } exam ? exam.Light.Latest : sight.Lane?.Light;
        return new LaneRoom(Word(said), Lux(sight), MustBeSaid(sight.Abilities));
    }

    /// <summary>Whether a person has to say the light, since the instrument has neither sensor nor switch.</summary>
    public static bool MustBeSaid(InstrumentAbilities abilities) =>
        (abilities & (InstrumentAbilities.LightSensor | InstrumentAbilities.LightSwitch)) == 0;

    private static string? Word(LightSaid? said) =>
        said?.Light is { } light ? ClinicWords.Lights[light]
        : said is { SaidBy: ConditionSource.Instrument, Millilux: not null } ? Between
        : null;

    private static double? Lux(LaneSight sight) =>
        sight.Live?.Room is { Level: RoomLightLevel.Measured } live ? live.Millilux / 1000.0
        : sight.IsSameBoot && sight.Lane!.Millilux is { } recorded ? recorded / 1000.0
        : null;
}
