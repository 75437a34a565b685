namespace PupilBridge.Exams.Profiles;

/// <summary>One step of an exam, as a profile orders them and as a person is asked for them.</summary>
public enum ExamStep
{
    /// <summary>Both pupils' sizes in bright light.</summary>
    SizesBright = 1,

    /// <summary>Both pupils' sizes in dim light.</summary>
    SizesDim = 2,

    /// <summary>The form of both pupils.</summary>
    Shape = 3,

    /// <summary>The direct response of both eyes.</summary>
    Direct = 4,

    /// <summary>The swinging-flashlight test with the short dwell.</summary>
    SwingShort = 5,

    /// <summary>The swinging-flashlight test with the long dwell.</summary>
    SwingLong = 6,

    /// <summary>
    /// The near response of both eyes. It is asked for only where a direct response is poor, whether or not the profile
    /// lists it; where the profile lists it, it is always asked for.
    /// </summary>
    Near = 7,

    /// <summary>The consensual response; optional, prompted where a direct response is poor or the two are unequal.</summary>
    Consensual = 8,
}
