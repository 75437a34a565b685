namespace PupilBridge.Scenarios.Sending;

/// <summary>What a small FHIR server does wrong with one posted transaction.</summary>
public enum ServerFault
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>Answers only after a while, and has stored it.</summary>
    Slow,

    /// <summary>Refuses with 400.</summary>
    Refuses,

    /// <summary>Is overloaded: 503.</summary>
    Overloaded,

    /// <summary>Fails inside: 500.</summary>
    Fails,

    /// <summary>Wants patience: 429 with Retry-After.</summary>
    WantsPatience,

    /// <summary>Cuts the line before it stored anything.</summary>
    CutsBefore,

    /// <summary>Cuts the line after it stored all.</summary>
    CutsAfter,

    /// <summary>Answers 200 with garbage and has stored nothing.</summary>
    LiesBefore,

    /// <summary>Answers 200 with garbage and has stored all.</summary>
    LiesAfter,

    /// <summary>Cuts the line, and stores a little later.</summary>
    StoresLate,
}
