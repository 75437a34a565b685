using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.LaneApi;

/// <summary>Boards to show.</summary>
internal static class SomeBoards
{
    /// <summary>A lane without an exam whose right scale stands somewhere.</summary>
    public static LaneBoard At(int micrometres) =>
        new()
        {
            Now = DateTimeOffset.UnixEpoch,
            Instrument = "QA-0001",
            Model = "Quay-A",
            Line = "connected",
            LineWords = "Connected",
            BatteryPercent = null,
            CanSwitchOff = false,
            Trouble = null,
            Mode = "measure",
            Block = null,
            Right = Eye(micrometres),
            Left = Eye(null),
            Room = new LaneRoom(null, null, true),
            Fixation = null,
            ReceivedEvents = 0,
            RecordedEvents = 0,
            Exam = null,
            Before = null,
            Reminders = [],
        };

    private static LaneEye Eye(int? micrometres) =>
        new()
        {
            PositionMicrometres = micrometres,
            IsMoving = micrometres is not null,
            LiveMillimetres = null,
            IsLit = false,
            LitSince = null,
            DwellWantedMilliseconds = null,
            DarkSince = null,
            DarkSettledAfterMilliseconds = 20_000,
        };
}
