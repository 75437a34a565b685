using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Words;

/// <summary>The words for everything that people enter and read.</summary>
public static class ClinicWords
{
    /// <summary>The eyes by the trade's abbreviations; the plain words are read too.</summary>
    public static WordTable<Eye> Eyes { get; } = new("eye", (Eye.Right, "OD", ["right"]), (Eye.Left, "OS", ["left"]));

    /// <summary>What the room light is.</summary>
    public static WordTable<RoomLight> Lights { get; } =
        new("room light", (RoomLight.Bright, "bright"), (RoomLight.Dim, "dim"));

    /// <summary>Where the patient looks.</summary>
    public static WordTable<Fixation> Fixations { get; } =
        new("fixation", (Fixation.Far, "far"), (Fixation.Near, "near"));

    /// <summary>What may be amiss with an eye before the test.</summary>
    public static WordTable<EyeConditions> Conditions { get; } =
        new(
            "eye status",
            (EyeConditions.None, "nothing-remarkable"),
            (EyeConditions.Prosthesis, "prosthesis"),
            (EyeConditions.Patch, "patch"),
            (EyeConditions.Drops, "drops"),
            (EyeConditions.SurgeryOrInjury, "surgery-or-injury"),
            (EyeConditions.OpaqueCornea, "opaque-cornea"),
            (EyeConditions.LidDown, "lid-down")
        );

    /// <summary>The steps of an exam.</summary>
    public static WordTable<ExamStep> Steps { get; } =
        new(
            "step",
            (ExamStep.SizesBright, "sizes-bright"),
            (ExamStep.SizesDim, "sizes-dim"),
            (ExamStep.Shape, "shape"),
            (ExamStep.Direct, "direct"),
            (ExamStep.SwingShort, "swing-short"),
            (ExamStep.SwingLong, "swing-long"),
            (ExamStep.Near, "near"),
            (ExamStep.Consensual, "consensual")
        );

    /// <summary>The form of a pupil.</summary>
    public static WordTable<PupilShape> Shapes { get; } =
        new(
            "pupil shape",
            (PupilShape.Round, "round", []),
            (PupilShape.NotRound, "not-round", []),
            (PupilShape.CouldNotSee, CouldNotSee, ["?"])
        );

    /// <summary>The two dwells of the swinging-flashlight test.</summary>
    public static WordTable<Block> Dwells { get; } =
        new("dwell", (Block.SwingShort, "short"), (Block.SwingLong, "long"));

    /// <summary>The instrument's blocks.</summary>
    public static WordTable<Block> Blocks { get; } =
        new(
            "block",
            (Block.None, "none"),
            (Block.Direct, "direct"),
            (Block.SwingShort, "swing-short"),
            (Block.SwingLong, "swing-long"),
            (Block.Near, "near")
        );

    /// <summary>The instrument's modes.</summary>
    public static WordTable<InstrumentMode> Modes { get; } =
        new(
            "mode",
            (InstrumentMode.Idle, "idle"),
            (InstrumentMode.Measure, "measure"),
            (InstrumentMode.Sequence, "sequence"),
            (InstrumentMode.Hold, "hold")
        );

    /// <summary>What a person says who looked and could not see it. It is neither normal nor "not examined".</summary>
    public const string CouldNotSee = "could-not-see";
}
