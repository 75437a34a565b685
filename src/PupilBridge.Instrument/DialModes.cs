namespace PupilBridge.Instrument;

/// <summary>What the mode dial asks of the instrument.</summary>
public enum InstrumentMode
{
    /// <summary>Nothing is asked; settings may be changed.</summary>
    Idle = 1,

    /// <summary>Pupil sizes are taken with the scales.</summary>
    Measure = 2,

    /// <summary>The blocks follow each other by themselves.</summary>
    Sequence = 3,

    /// <summary>One block goes on until the dial moves.</summary>
    Hold = 4,
}

/// <summary>One kind of stimulus train.</summary>
public enum Block
{
    /// <summary>No stimulus train: the mode has none.</summary>
    None = 0,

    /// <summary>Single stimuli into one eye, then the other: the direct response.</summary>
    Direct = 1,

    /// <summary>The swinging-flashlight test with a short dwell.</summary>
    SwingShort = 2,

    /// <summary>The swinging-flashlight test with a long dwell.</summary>
    SwingLong = 3,

    /// <summary>The near response; the lamp stays off.</summary>
    Near = 4,
}

/// <summary>One edge of a pupil, where its margin crosses the horizontal.</summary>
public enum PupilEdge
{
    /// <summary>The edge on the side of the nose.</summary>
    Nasal = 1,

    /// <summary>The edge on the side of the temple.</summary>
    Temporal = 2,
}
