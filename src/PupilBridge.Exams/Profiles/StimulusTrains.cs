namespace PupilBridge.Exams.Profiles;

/// <summary>The stimuli of the direct response. Default, ours: three of 1 s per eye, 3 s apart.</summary>
public sealed record DirectTrain
{
    /// <summary>How many stimuli each eye gets, 1 or more.</summary>
    public required int StimuliPerEye { get; init; }

    /// <summary>How long the lamp is on, in milliseconds.</summary>
    public required int DwellMilliseconds { get; init; }

    /// <summary>How long the lamp is off between two stimuli, from off to on, in milliseconds.</summary>
    public required int GapMilliseconds { get; init; }
}

/// <summary>
/// One dwell of the swinging-flashlight test. An alternation is one stimulus in the one eye and one in the other: four
/// alternations are eight stimuli, four per eye. Either eye may start.
/// </summary>
/// <remarks>
/// Defaults: short dwell 1 s (a convention, no source); long dwell 3 s, as in Bell RA et al., "Clinical grading of
/// relative afferent pupillary defects", Arch Ophthalmol 1993;111(7):938–942 (3-second pause per eye); four alternations
/// and the longest gap are ours.
/// </remarks>
public sealed record SwingTrain
{
    /// <summary>How long each eye is lit, in milliseconds.</summary>
    public required int DwellMilliseconds { get; init; }

    /// <summary>How many alternations are needed, 1 or more. The first is not judged.</summary>
    public required int Alternations { get; init; }

    /// <summary>
    /// The longest dark time between the two eyes, in milliseconds, for which they still alternate: with longer dark the
    /// pupils widen and the fellow eyes no longer compare.
    /// </summary>
    public required int MaxGapMilliseconds { get; init; }

    /// <summary>How many stimuli hold the alternations: twice as many.</summary>
    public int Stimuli => 2 * Alternations;
}
