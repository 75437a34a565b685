using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>Makes the board of a lane out of values.</summary>
internal static class LaneBoards
{
    /// <summary>The board.</summary>
    /// <param name="sight">What it is made of.</param>
    /// <param name="exam">The exam's part: it changes far more seldom than the rest, and so is made elsewhere and kept.</param>
    /// <param name="before">The part about the exam before.</param>
    /// <param name="reminders">Reminders about the lane as a whole.</param>
    /// <param name="now">The present time.</param>
    public static LaneBoard Of(
        LaneSight sight,
        LaneExam? exam,
        LaneExamBefore? before,
        IReadOnlyList<LaneReminder> reminders,
        DateTimeOffset now
    )
    {
        var (line, words) = LaneLines.Of(sight);
        var (mode, block) = Dial(sight);
        return new LaneBoard
        {
            Now = now,
            Instrument = sight.Serial.Value,
            Model = sight.Live?.Model ?? sight.Lane?.Identity?.Model ?? "",
            Line = line,
            LineWords = words,
            BatteryPercent = sight.Live?.BatteryPercent,
            CanSwitchOff = line == LaneLines.Connected && sight.Abilities.HasFlag(InstrumentAbilities.SwitchOff),
            Trouble = sight.Trouble,
            Mode = mode is { } known ? ClinicWords.Modes[known] : null,
            Block = block == Block.None ? null : ClinicWords.Blocks[block],
            Right = LaneEyes.Of(sight, Eye.Right, now),
            Left = LaneEyes.Of(sight, Eye.Left, now),
            Room = LaneRooms.Of(sight),
            Fixation = Fixation(sight) is { } fixation ? ClinicWords.Fixations[fixation] : null,
            ReceivedEvents = sight.Live?.Received ?? 0,
            RecordedEvents = sight.Live?.Recorded ?? 0,
            Exam = exam,
            Before = before,
            Reminders = reminders,
            Calibration = LaneBenches.Calibration(sight, now),
            Bench = LaneBenches.Run(sight),
        };
    }

    /// <summary>Whether two boards show the same; when they were made does not matter.</summary>
    public static bool ShowTheSame(LaneBoard one, LaneBoard? other) =>
        other is not null && one == other with { Now = one.Now };

    /// <summary>Where the dial stands: as the instrument says, else as the journal knows it of the same boot.</summary>
    internal static (InstrumentMode? Mode, Block Block) Dial(LaneSight sight) =>
        sight.Live?.Mode is { } live ? (live.Mode, live.Block)
        : sight.IsSameBoot && sight.Lane?.Dial is { } recorded ? (recorded.Mode, recorded.Block)
        : (null, Block.None);

    private static Fixation? Fixation(LaneSight sight) =>
        sight.Exam is { } exam ? ExamConditions.FixationNow(exam) : sight.Lane?.Fixation?.Fixation;
}
