namespace PupilBridge.Cohort.Examining;

/// <summary>
/// How people scatter in the simulated clinic. Each number says where it comes from; what nobody published, or what was not at
/// hand, is ours and an assumption.
/// </summary>
public sealed record HumanScatter
{
    /// <summary>
    /// Standard deviation of setting a scale to one edge, in mm. Ours: 0.07, so that two edges together give the 0.1 mm that the
    /// default profile assumes. The pupil's own unrest comes on top of it.
    /// </summary>
    public double EdgeMillimetres { get; init; } = 0.07;

    /// <summary>Standard deviation of the pupils' slow unrest, in mm; the simulator's, an assumption of ours.</summary>
    public double UnrestMillimetres { get; init; } = 0.05;

    /// <summary>Part of near responses that are tested in the bright room after direct responses in the dim one. Ours.</summary>
    public double NearInOtherLight { get; init; } = 0.05;

    /// <summary>Standard deviation of a grade of reaction, in grades. Ours: half a grade, then rounded to half steps.</summary>
    public double Grade { get; init; } = 0.5;

    /// <summary>Standard deviation with which two eyes' widening is compared in the swinging test, in mm. Ours.</summary>
    public double SwingMillimetres { get; init; } = 0.1;

    /// <summary>Part of swinging outcomes, of bracket answers, that are said at random. Ours.</summary>
    public double SwingLapse { get; init; } = 0.02;

    /// <summary>Part of judgements where nothing could be seen. Ours.</summary>
    public double CouldNotSee { get; init; } = 0.02;

    /// <summary>
    /// Part of grades on the scale of Bell that agree with the group's: 0.78, Bell RA et al., Arch Ophthalmol 1993;111(7):938-942
    /// (abstract). The others are one grade off, up or down (ours).
    /// </summary>
    public double BellAgreement { get; init; } = 0.78;

    /// <summary>Part of pupils that are not round and are called round. Ours.</summary>
    public double ShapeMissed { get; init; } = 0.08;

    /// <summary>Part of round pupils that are called not round. Ours.</summary>
    public double ShapeInvented { get; init; } = 0.01;

    /// <summary>Part of truly slow pupils whose slow dilation is noticed and said. Ours.</summary>
    public double SlowNoticed { get; init; } = 0.5;

    /// <summary>Part of other pupils that are called slow. Ours.</summary>
    public double SlowInvented { get; init; } = 0.01;

    /// <summary>Part of steps that are left out, each for itself. Ours.</summary>
    public double StepSkipped { get; init; } = 0.02;

    /// <summary>Standard deviation of a lamp's duration, in parts of it. Ours.</summary>
    public double TimingScatter { get; init; } = 0.008;

    /// <summary>Part of patients who say nothing of drops, an operation or an injury that there was. Ours.</summary>
    public double StatusNotTold { get; init; } = 0.1;

    /// <summary>Part of exams in which nobody enters the state of the eyes. Ours.</summary>
    public double StatusNotAsked { get; init; } = 0.05;

    /// <summary>Part of near fixation that goes unnoticed, so that far stays on record. Ours.</summary>
    public double NearUnnoticed { get; init; } = 0.3;

    /// <summary>Part of exams with a fixed pupil in which the working pupil alone is watched. Ours.</summary>
    public double WatchesWorkingAlone { get; init; } = 0.7;

    /// <summary>The defaults.</summary>
    public static HumanScatter Usual { get; } = new();

    /// <summary>An examiner without scatter who leaves nothing out, misses nothing and invents nothing.</summary>
    public static HumanScatter None { get; } =
        new()
        {
            EdgeMillimetres = 0,
            UnrestMillimetres = 0,
            NearInOtherLight = 0,
            Grade = 0,
            SwingMillimetres = 0,
            SwingLapse = 0,
            CouldNotSee = 0,
            BellAgreement = 1,
            ShapeMissed = 0,
            ShapeInvented = 0,
            SlowNoticed = 1,
            SlowInvented = 0,
            StepSkipped = 0,
            TimingScatter = 0,
            StatusNotTold = 0,
            StatusNotAsked = 0,
            NearUnnoticed = 0,
            WatchesWorkingAlone = 1,
        };
}
